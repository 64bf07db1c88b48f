/* SPDX-License-Identifier: MIT */
#define _GNU_SOURCE
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

/*
 * faults [STRIDE]: the main job, in this process, again and again: once with
 * each allocation failing, once with all from there on failing, once with
 * each call on a file failing, and with short and interrupted transfers.
 * STRIDE 10 tries every tenth.  The program is linked with --wrap, so the
 * calls below stand in for the system's, in Lua's own code too.  (Short reads
 * are tests/test_runner.c's, by a pipe: fread never shows them.)
 *
 * After each run: exit status 0 and the very output of a good run, or 1 or 2
 * with a message, no half-written file, and every block freed.
 */
int tarn_main(int argc, char **argv);

/* ---- what fails ------------------------------------------------------------ */

enum mode { NEVER, ONE_BLOCK, BLOCKS_FROM, ONE_CALL, SHORT, MODES };
static const char *const mode_names[MODES] = {
	"nothing", "one allocation", "all allocations from one on",
	"one call on a file", "short and interrupted writes"
};

static enum mode mode;
static long left, allocations, calls, blocks;

static int block_fails(void)
{
	allocations++;
	if (mode == ONE_BLOCK)
		return left-- == 0;
	return mode == BLOCKS_FROM && left-- <= 0;
}

static int call_fails(int reason)
{
	calls++;
	if (mode != ONE_CALL || left-- != 0)
		return 0;
	errno = reason;
	return 1;
}

#define WRAP(type, name, ...) \
	type __real_##name(__VA_ARGS__); \
	type __wrap_##name(__VA_ARGS__); \
	type __wrap_##name(__VA_ARGS__)

WRAP(void *, malloc, size_t n)
{
	void *p = block_fails() ? NULL : __real_malloc(n);

	blocks += p != NULL;
	return p;
}

WRAP(void, free, void *p)
{
	blocks -= p != NULL;
	__real_free(p);
}

WRAP(void *, realloc, void *p, size_t n)
{
	void *q = block_fails() ? NULL : __real_realloc(p, n);

	blocks += q != NULL && p == NULL;
	return q;
}

WRAP(FILE *, fopen, const char *path, const char *how)
{
	return call_fails(EMFILE) ? NULL : __real_fopen(path, how);
}

/* A read error that ferror() knows of: by a file that cannot be read. */
WRAP(size_t, fread, void *to, size_t size, size_t n, FILE *f)
{
	if (call_fails(EIO)) {
		int fd = open(".", O_RDONLY | O_DIRECTORY);

		dup2(fd, fileno(f));
		close(fd);
	}
	return __real_fread(to, size, n, f);
}

WRAP(ssize_t, write, int fd, const void *from, size_t n)
{
	static int turn;

	if (call_fails(ENOSPC))
		return -1;
	if (mode == SHORT && ++turn % 3 == 0) {
		errno = EINTR;
		return -1;
	}
	return __real_write(fd, from, mode == SHORT && n > 700 ? 700 : n);
}

WRAP(int, mkstemp, char *path)
{
	return call_fails(EACCES) ? -1 : __real_mkstemp(path);
}

WRAP(int, fchmod, int fd, mode_t bits)
{
	return call_fails(EPERM) ? -1 : __real_fchmod(fd, bits);
}

WRAP(int, fsync, int fd)
{
	return call_fails(EIO) ? -1 : __real_fsync(fd);
}

WRAP(int, rename, const char *from, const char *to)
{
	return call_fails(EXDEV) ? -1 : __real_rename(from, to);
}

/* Closes in any case, as the system does. */
WRAP(int, close, int fd)
{
	int failed = call_fails(EDQUOT), reason = errno;
	int result = __real_close(fd);

	errno = reason;
	return failed ? -1 : result;
}

/* ---- one run --------------------------------------------------------------- */

#define TEXT_MAX 200000
#define FOLDER_MAX 64

struct text {
	size_t bytes;
	char at[TEXT_MAX];
};

static struct text out, log_text, csv, html;	/* of the run */
static struct text good_out, good_csv, good_html;
static char folder[FOLDER_MAX] = "/tmp/faults.XXXXXX";
static int out_fd, log_fd, failures;

static void slurp(int fd, struct text *t)
{
	ssize_t n = fd < 0 ? 0 : pread(fd, t->at, TEXT_MAX - 1, 0);

	t->bytes = n < 0 ? 0 : (size_t)n;
	t->at[t->bytes] = '\0';
}

/* Text of a file of the folder, which is then gone. */
static void take(const char *name, struct text *t)
{
	char path[FOLDER_MAX + 20];
	int fd;

	snprintf(path, sizeof path, "%s/%s", folder, name);
	fd = open(path, O_RDONLY);
	slurp(fd, t);
	if (fd >= 0)
		close(fd);
	unlink(path);
}

/* Files that are still there: 0 after take() of both. */
static int leftovers(void)
{
	DIR *dir = opendir(folder);
	struct dirent *entry;
	int count = 0;

	while (dir && (entry = readdir(dir)) != NULL) {
		char path[FOLDER_MAX + 260];

		if (entry->d_name[0] == '.')
			continue;
		snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
		unlink(path);
		count++;
	}
	closedir(dir);
	return count;
}

static int run(enum mode how, long nth)
{
	char csv_path[FOLDER_MAX + 20], html_path[FOLDER_MAX + 20];
	char *argv[] = {
		"tarn", "topup", "weather-samples/courtyard-pond.lua",
		"tests/faults/weather.csv", "--csv", csv_path, "--report",
		html_path, "--latitude=47.45", "--elevation=130",
		"--wind-height=10", NULL
	};
	int status;

	snprintf(csv_path, sizeof csv_path, "%s/out.csv", folder);
	snprintf(html_path, sizeof html_path, "%s/out.html", folder);
	if (ftruncate(out_fd, 0) != 0 || ftruncate(log_fd, 0) != 0)
		abort();
	rewind(stdout);
	rewind(stderr);
	allocations = calls = blocks = 0;
	left = nth;
	mode = how;
	status = tarn_main(11, argv);
	mode = NEVER;
	fflush(stdout);
	fflush(stderr);
	slurp(out_fd, &out);
	slurp(log_fd, &log_text);
	take("out.csv", &csv);
	take("out.html", &html);
	return status;
}

static int same(const struct text *a, const struct text *b)
{
	return a->bytes == b->bytes && memcmp(a->at, b->at, a->bytes) == 0;
}

static const char *wrong(int status)
{
	if (blocks != 0)
		return "memory is lost";
	if (leftovers() != 0)
		return "a file is left behind";
	if ((csv.bytes && !same(&csv, &good_csv)) ||
	    (html.bytes && !same(&html, &good_html)))
		return "a file is not whole";
	if (status == 0)
		return same(&out, &good_out) && csv.bytes && html.bytes
			? NULL : "success, and something is missing";
	if (status != 1 && status != 2)
		return "no such exit status";
	if (strncmp(log_text.at, "tarn: ", 6) != 0)
		return "no message";
	if ((mode == ONE_BLOCK || mode == BLOCKS_FROM) && status != 1)
		return "a want of memory is called the user's mistake";
	return NULL;
}

static void sweep(FILE *report, enum mode how, long count, long stride)
{
	long done = 0, survived = 0;

	for (long n = 0; n < count; n += stride, done++) {
		int status = run(how, n);
		const char *why;

		mode = how;
		why = wrong(status);
		mode = NEVER;
		survived += status == 0;
		if (why && failures++ < 20)
			fprintf(report, "%s, number %ld: %s (status %d): %s\n",
				mode_names[how], n, why, status, log_text.at);
	}
	fprintf(report, "%-34s %6ld of %6ld tried, %ld finished all the same\n",
		mode_names[how], done, count, survived);
}

int main(int argc, char **argv)
{
	long stride = argc > 1 ? atol(argv[1]) : 1;
	FILE *report = fdopen(dup(1), "w");
	long allocations_all, calls_all;

	out_fd = memfd_create("out", 0);
	log_fd = memfd_create("log", 0);
	if (!report || !mkdtemp(folder) || dup2(out_fd, 1) < 0 ||
	    dup2(log_fd, 2) < 0 || stride < 1)
		return 1;
	setvbuf(report, NULL, _IONBF, 0);
	setvbuf(stdout, NULL, _IOFBF, 1 << 16);
	if (run(NEVER, 0) != 0 || blocks != 0 || leftovers() != 0) {
		fprintf(report, "the good run fails: %ld blocks, %s\n",
			blocks, log_text.at);
		rmdir(folder);
		return 1;
	}
	good_out = out;
	good_csv = csv;
	good_html = html;
	allocations_all = allocations;
	calls_all = calls;
	sweep(report, ONE_BLOCK, allocations_all, stride);
	sweep(report, BLOCKS_FROM, allocations_all, stride);
	sweep(report, ONE_CALL, calls_all, 1);
	sweep(report, SHORT, 1, 1);
	rmdir(folder);
	return failures != 0;
}

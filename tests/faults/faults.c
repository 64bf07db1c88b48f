/* SPDX-License-Identifier: MIT */
#define _GNU_SOURCE
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include "jobs.h"

/*
 * faults [STRIDE [JOB]]: each job (or each whose name begins so), in this process, again and again: once with
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
static int unsafe;	/* Ctrl-C could have left a part of a file */

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
	sigset_t blocked;

	/* what is written here is a file that is not yet in place */
	sigprocmask(SIG_BLOCK, NULL, &blocked);
	unsafe |= !sigismember(&blocked, SIGINT);
	if (call_fails(ENOSPC))
		return -1;
	if (mode == SHORT && ++turn % 3 == 0) {
		errno = EINTR;
		return -1;
	}
	return __real_write(fd, from, mode == SHORT && n > 700 ? 700 : n);
}

/* Some file systems know no file without a name: then one is made with it. */
WRAP(int, openat, int at, const char *path, int flags, ...)
{
	va_list more;
	mode_t bits = 0;

	va_start(more, flags);
	if (flags & (O_CREAT | O_TMPFILE))
		bits = va_arg(more, mode_t);
	va_end(more);
	if ((flags & O_TMPFILE) == O_TMPFILE && mode == SHORT) {
		errno = EOPNOTSUPP;
		return -1;
	}
	return call_fails(EACCES) ? -1 : __real_openat(at, path, flags, bits);
}

WRAP(int, linkat, int from_at, const char *from, int to_at, const char *to,
     int flags)
{
	return call_fails(EPERM) ? -1
		: __real_linkat(from_at, from, to_at, to, flags);
}

WRAP(int, fchmod, int fd, mode_t bits)
{
	return call_fails(EPERM) ? -1 : __real_fchmod(fd, bits);
}

WRAP(int, fsync, int fd)
{
	return call_fails(EIO) ? -1 : __real_fsync(fd);
}

WRAP(int, renameat, int from_at, const char *from, int to_at, const char *to)
{
	return call_fails(EXDEV) ? -1
		: __real_renameat(from_at, from, to_at, to);
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

#define TEXT_MAX 300000
#define FOLDER_MAX 64
#define FILES_MAX 2

struct text {
	size_t bytes;
	char at[TEXT_MAX];
};

/* What a run leaves behind: its output, and files in the order of the job. */
struct result {
	struct text out, file[FILES_MAX];
	int files;
};

static struct result result, good;
static struct text log_text;
static char folder[FOLDER_MAX] = "/tmp/faults.XXXXXX";
static char made[FOLDER_MAX] = "/tmp/faults-made.XXXXXX";
static int out_fd, log_fd, failures;

static void slurp(int fd, struct text *t)
{
	ssize_t n = fd < 0 ? 0 : pread(fd, t->at, TEXT_MAX - 1, 0);

	t->bytes = n < 0 ? 0 : (size_t)n;
	t->at[t->bytes] = '\0';
}

/* Text of a file, which is then gone. */
static void take(const char *path, struct text *t)
{
	int fd = open(path, O_RDONLY);

	slurp(fd, t);
	if (fd >= 0)
		close(fd);
	unlink(path);
}

/* Files that are still there, which are gone afterwards: 0 after take() of
 * all. */
static int leftovers(const char *of)
{
	DIR *dir = opendir(of);
	struct dirent *entry;
	int count = 0;

	while (dir && (entry = readdir(dir)) != NULL) {
		char path[FOLDER_MAX + 260];

		if (strcmp(entry->d_name, ".") == 0 ||
		    strcmp(entry->d_name, "..") == 0)
			continue;
		snprintf(path, sizeof path, "%s/%s", of, entry->d_name);
		unlink(path);
		count++;
	}
	closedir(dir);
	return count;
}

static int run(int job, enum mode how, long nth)
{
	static char words[ARGS_MAX][FOLDER_MAX + 100];
	char *argv[ARGS_MAX + 2] = { "tarn" };
	int argc = 1, status;

	for (int i = 0; i < ARGS_MAX && jobs[job].args[i]; i++, argc++) {
		const char *word = jobs[job].args[i];
		const char *in = word[0] == '@' ? folder
			: word[0] == '&' ? made : NULL;

		snprintf(words[i], sizeof words[i], "%s%s%s", in ? in : "",
			 in ? "/" : "", word + (in != NULL));
		argv[argc] = words[i];
	}
	if (ftruncate(out_fd, 0) != 0 || ftruncate(log_fd, 0) != 0)
		abort();
	rewind(stdout);
	rewind(stderr);
	allocations = calls = blocks = 0;
	left = nth;
	mode = how;
	status = tarn_main(argc, argv);
	mode = NEVER;
	fflush(stdout);
	fflush(stderr);
	slurp(out_fd, &result.out);
	slurp(log_fd, &log_text);
	result.files = 0;
	for (int i = 0; i < argc - 1; i++)
		if (jobs[job].args[i][0] == '@')
			take(words[i], &result.file[result.files++]);
	return status;
}

static int same(const struct text *a, const struct text *b)
{
	return a->bytes == b->bytes && memcmp(a->at, b->at, a->bytes) == 0;
}

static const char *wrong(int job, int status)
{
	int missing = 0;

	if (blocks != 0)
		return "memory is lost";
	if (unsafe)
		return "a signal could leave a part of a file behind";
	if (leftovers(folder) != 0)
		return "a file is left behind";
	for (int i = 0; i < result.files; i++) {
		if (result.file[i].bytes == 0)
			missing++;
		else if (!same(&result.file[i], &good.file[i]))
			return "a file is not whole";
	}
	if (status == jobs[job].status)
		return same(&result.out, &good.out) && !missing
			? NULL : "success, and something is missing";
	if (status != 1 && status != 2)
		return "no such exit status";
	if (strncmp(log_text.at, "tarn: ", 6) != 0)
		return "no message";
	if ((mode == ONE_BLOCK || mode == BLOCKS_FROM) && status != 1)
		return "a want of memory is called the user's mistake";
	return NULL;
}

static void sweep(FILE *report, int job, enum mode how, long count,
		  long stride)
{
	long done = 0, survived = 0;

	for (long n = 0; n < count; n += stride, done++) {
		int status = run(job, how, n);
		const char *why;

		mode = how;
		why = wrong(job, status);
		mode = NEVER;
		survived += status == jobs[job].status;
		if (why && failures++ < 20)
			fprintf(report, "%s, %s, number %ld: %s (status %d): "
				"%.300s\n", jobs[job].name,
				mode_names[how], n, why, status, log_text.at);
	}
	fprintf(report, "%-13s %-34s %6ld of %6ld tried, %ld finished all the "
		"same\n", jobs[job].name, mode_names[how], done, count,
		survived);
}

/* All faults of one job. */
static void try_job(FILE *report, int job, long stride)
{
	long all_allocations, all_calls;
	double step;

	if (run(job, NEVER, 0) != jobs[job].status || blocks != 0 ||
	    leftovers(folder) != 0) {
		fprintf(report, "%s: the good run fails: %ld blocks, %s\n",
			jobs[job].name, blocks, log_text.at);
		failures++;
		return;
	}
	if (jobs[job].every <= 0)
		return;
	good = result;
	all_allocations = allocations;
	all_calls = calls;
	step = (double)stride * jobs[job].every;
	stride = step > 1 ? (long)step : 1;
	sweep(report, job, ONE_BLOCK, all_allocations, stride);
	sweep(report, job, BLOCKS_FROM, all_allocations, stride);
	sweep(report, job, ONE_CALL, all_calls, 1);
	sweep(report, job, SHORT, 1, 1);
}

int main(int argc, char **argv)
{
	long stride = argc > 1 ? atol(argv[1]) : 1;
	const char *only = argc > 2 ? argv[2] : NULL;
	FILE *report = fdopen(dup(1), "w");

	out_fd = memfd_create("out", 0);
	log_fd = memfd_create("log", 0);
	if (!report || !mkdtemp(folder) || !mkdtemp(made) || dup2(out_fd, 1) < 0 ||
	    dup2(log_fd, 2) < 0 || stride < 1)
		return 1;
	setvbuf(report, NULL, _IONBF, 0);
	setvbuf(stdout, NULL, _IOFBF, 1 << 16);
	for (int job = 0; job < JOBS; job++)
		if (!only || jobs[job].every <= 0 ||
		    strncmp(only, jobs[job].name, strlen(only)) == 0)
			try_job(report, job, stride);
	leftovers(made);
	rmdir(made);
	rmdir(folder);
	return failures != 0;
}

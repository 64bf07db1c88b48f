/* SPDX-License-Identifier: MIT */
#define _GNU_SOURCE		/* O_TMPFILE, getentropy */
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#ifndef __wasi__
#include <sys/file.h>
#endif
#include <unistd.h>

#include "bind_study.h"
#include "replace.h"

#define LINKS_MAX 40

/* ---- names ------------------------------------------------------------------ */

/* Takes one step if the name is a link.  0: it was; or ENOENT: it is none, or
 * nothing is there; or the reason as errno. */
static int follow(char target[PATH_MAX])
{
	char to[PATH_MAX], *slash = strrchr(target, '/');
	ssize_t n = readlink(target, to, sizeof to - 1);
	size_t at = slash ? (size_t)(slash - target) + 1 : 0;

	if (n < 0)
		return errno == EINVAL ? ENOENT : errno;
	to[n] = '\0';
	if (to[0] == '/')
		at = 0;
	if (at + (size_t)n >= PATH_MAX)
		return ENAMETOOLONG;
	strcpy(target + at, to);
	return 0;
}

int replace_resolve(const char *path, char target[PATH_MAX])
{
	int reason = 0, links;

	if (strlen(path) >= PATH_MAX)
		return ENAMETOOLONG;
	strcpy(target, path);
	for (links = 0; reason == 0 && links < LINKS_MAX; links++)
		reason = follow(target);
	return reason == ENOENT ? 0 : reason == 0 ? ELOOP : reason;
}

const char *replace_split(const char *path, char folder[PATH_MAX])
{
	const char *slash = strrchr(path, '/');
	size_t n = slash ? (size_t)(slash - path) : 0;

	if (!slash) {
		strcpy(folder, ".");
		return path;
	}
	memcpy(folder, path, n);
	strcpy(folder + n, n == 0 ? "/" : "");
	return slash + 1;
}

static int own(const char *path)
{
	static const struct { const char *name; int fd; } names[] = {
		{ "/dev/stdout", STDOUT_FILENO }, { "/dev/fd/1", STDOUT_FILENO },
		{ "/proc/self/fd/1", STDOUT_FILENO },
		{ "/dev/stderr", STDERR_FILENO }, { "/dev/fd/2", STDERR_FILENO },
		{ "/proc/self/fd/2", STDERR_FILENO },
	};

	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
		if (strcmp(path, names[i].name) == 0)
			return names[i].fd;
	return -1;
}

int replace_own(const char *path)
{
	char target[PATH_MAX];

	if (strlen(path) >= PATH_MAX)
		return -1;
	strcpy(target, path);
	for (int links = 0; links < LINKS_MAX && own(target) < 0; links++)
		if (follow(target) != 0)
			return -1;
	return own(target);
}

#ifdef __wasi__
/* ---- in a browser ------------------------------------------------------------- */

/* Files are in memory, one program's own, and nothing comes between. */
int replace_possible(const char *path)
{
	struct stat st;

	return stat(path, &st) == 0 && S_ISDIR(st.st_mode) ? EISDIR : 0;
}

static int replace_file(const struct replacement *r)
{
	FILE *f = fopen(r->path, "wb");
	int reason = 0;

	if (!f)
		return errno;
	if (fwrite(r->text, 1, r->bytes, f) != r->bytes)
		reason = errno;
	if (fclose(f) != 0 && reason == 0)
		reason = errno;
	return reason;
}

int replace_all(struct replacement *files, size_t count, size_t *failed)
{
	int reason = 0;

	for (size_t i = 0; reason == 0 && i < count; i++) {
		*failed = i;
		reason = replace_file(&files[i]);
	}
	return reason;
}

#else
/* ---- what may be written ---------------------------------------------------- */

/* A file that nobody may write is not replaced either, whoever asks. */
static int refused(const char *path, const struct stat *st)
{
	if (S_ISDIR(st->st_mode))
		return EISDIR;
	if (S_ISREG(st->st_mode) && !(st->st_mode & 0222))
		return EACCES;
	return access(path, W_OK) != 0 ? errno : 0;
}

int replace_possible(const char *path)
{
	char target[PATH_MAX], folder[PATH_MAX];
	struct stat st;
	int there = stat(path, &st) == 0, reason = 0;

	if (replace_own(path) >= 0)
		return 0;
	if (there)
		reason = refused(path, &st);
	if (reason != 0 || (there && !S_ISREG(st.st_mode)))
		return reason;
	reason = replace_resolve(path, target);
	if (reason == 0 && *replace_split(target, folder) == '\0')
		return EISDIR;
	if (reason == 0 && access(folder, W_OK | X_OK) != 0)
		reason = errno;
	return reason;
}

/* ---- bytes ------------------------------------------------------------------ */

/* Writes all bytes; 0, or the reason as errno. */
static int write_all(int fd, const char *text, size_t bytes)
{
	while (bytes > 0) {
		ssize_t n = write(fd, text, bytes);

		if (n < 0 && errno == EINTR && !bind_interrupted())
			continue;
		if (n < 0)
			return errno;
		text += n;
		bytes -= (size_t)n;
	}
	return 0;
}

/* A signal that says no more than the reason of a failed write is taken out of
 * those that wait. */
static void forget(int signal)
{
	static const struct timespec now;
	sigset_t one;

	sigemptyset(&one);
	sigaddset(&one, signal);
	sigtimedwait(&one, NULL, &now);
}

static int close_file(int fd, int reason)
{
	if (close(fd) != 0 && reason == 0)
		reason = errno;
	return reason;
}

/* A pipe or a device cannot be replaced.  Whoever reads it may have gone. */
static int write_through(const struct replacement *r)
{
	sigset_t gone, before;
	int standard = replace_own(r->path), reason;
	int fd = standard >= 0 ? dup(standard) : open(r->path, O_WRONLY | O_CLOEXEC);

	if (fd < 0)
		return errno;
	sigemptyset(&gone);
	sigaddset(&gone, SIGPIPE);
	pthread_sigmask(SIG_BLOCK, &gone, &before);
	reason = write_all(fd, r->text, r->bytes);
	if (reason == EPIPE)
		forget(SIGPIPE);
	pthread_sigmask(SIG_SETMASK, &before, NULL);
	return close_file(fd, reason);
}

/* A file with other names keeps them: overwritten, after the disk was found to
 * have the room. */
static int overwrite(const struct replacement *r)
{
	int fd = open(r->target, O_WRONLY | O_CLOEXEC), reason = 0;

	if (fd < 0)
		return errno;
	if (r->bytes > 0)
		reason = posix_fallocate(fd, 0, (off_t)r->bytes);
	if (reason == EOPNOTSUPP || reason == EINVAL)
		reason = 0;
	if (reason == 0)
		reason = write_all(fd, r->text, r->bytes);
	if (ftruncate(fd, reason == 0 ? (off_t)r->bytes : r->old.st_size) != 0 ||
	    fsync(fd) != 0)
		reason = reason == 0 ? errno : reason;
	return close_file(fd, reason);
}

/* ---- one file ----------------------------------------------------------------- */

/* Calls 'make' with names that nobody can guess until one is free. */
static int named(struct replacement *r,
		 int (*make)(struct replacement *, const char *name))
{
	for (int tries = 0; tries < 100; tries++) {
		unsigned long long chance;
		int reason;

		if (getentropy(&chance, sizeof chance) != 0)
			return errno;
		snprintf(r->part, sizeof r->part, REPLACE_PART "%0*llx",
			 REPLACE_DIGITS, chance);
		reason = make(r, r->part);
		if (reason == 0)
			return 0;
		r->part[0] = '\0';
		if (reason != EEXIST)
			return reason;
	}
	return EEXIST;
}

/* A new file is made as the mask of the process wants it; one that replaces
 * another is nobody's to read until it has the other's mode. */
static int create(struct replacement *r, const char *name)
{
	r->fd = openat(r->folder, name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC,
		       r->there ? 0600 : 0666);
	return r->fd < 0 ? errno : 0;
}

static int give_name(struct replacement *r, const char *name)
{
	char self[40];

	snprintf(self, sizeof self, "/proc/self/fd/%d", r->fd);
	return linkat(AT_FDCWD, self, r->folder, name, AT_SYMLINK_FOLLOW) != 0
		? errno : 0;
}

/* Opens the new file: without a name, so that whatever ends the program leaves
 * nothing behind, or under one of its own where the system cannot do that. */
static int open_part(struct replacement *r)
{
#ifdef O_TMPFILE
	if (access("/proc/self/fd", X_OK) == 0) {
		r->fd = openat(r->folder, ".", O_TMPFILE | O_WRONLY | O_CLOEXEC,
			       r->there ? 0600 : 0666);
		if (r->fd >= 0)
			return 0;
		if (errno != EOPNOTSUPP && errno != EISDIR && errno != ENOENT &&
		    errno != EINVAL)
			return errno;
	}
#endif
	return named(r, create);
}

/* Puts the text on the disk, beside the target. */
static int stage(struct replacement *r)
{
	char folder[PATH_MAX];
	int reason = r->there ? refused(r->path, &r->old) : 0;

	if (reason == 0)
		reason = replace_resolve(r->path, r->target);
	if (reason != 0)
		return reason;
	if (*replace_split(r->target, folder) == '\0')
		return EISDIR;
	r->folder = openat(AT_FDCWD, folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	if (r->folder < 0)
		return errno;
	reason = open_part(r);
	if (reason == 0)
		flock(r->fd, LOCK_EX | LOCK_NB);
	if (reason == 0)
		reason = write_all(r->fd, r->text, r->bytes);
	if (reason != 0)
		return reason;
	r->in_place = r->there && (r->old.st_nlink > 1 ||
		(r->old.st_uid != geteuid() &&
		 fchown(r->fd, r->old.st_uid, r->old.st_gid) != 0));
	if ((r->there && fchmod(r->fd, r->old.st_mode & 07777) != 0) ||
	    fsync(r->fd) != 0)
		return errno;
	return 0;
}

/* Takes the target's place. */
static int put(struct replacement *r)
{
	char folder[PATH_MAX];
	const char *name = replace_split(r->target, folder);
	int reason = 0;

	if (r->in_place)
		return overwrite(r);
	if (r->part[0] == '\0') {
		if (!r->there && (reason = give_name(r, name)) != EEXIST)
			return reason;
		reason = named(r, give_name);
	}
	if (reason == 0 && renameat(r->folder, r->part, r->folder, name) != 0)
		reason = errno;
	if (reason == 0)
		r->part[0] = '\0';
	return reason;
}

/* What is open is closed, what has a name of its own goes; where others failed,
 * what was not there before goes too.  (All is on the disk: a close that fails
 * now says nothing.) */
static void finish(struct replacement *r, int undo)
{
	char folder[PATH_MAX];

	if (r->fd >= 0)
		close(r->fd);
	if (r->part[0])
		unlinkat(r->folder, r->part, 0);
	if (undo && r->done && !r->there)
		unlinkat(r->folder, replace_split(r->target, folder), 0);
	if (r->folder >= 0) {
		replace_sweep(r->folder);
		close(r->folder);
	}
}

/* ---- all -------------------------------------------------------------------------- */

/* Whatever may stop the program waits until nothing is half done; a fault of
 * its own does not. */
static void hold_signals(sigset_t *before)
{
	static const int own[] = { SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT,
				   SIGTRAP, SIGSYS };
	sigset_t stops;

	sigfillset(&stops);
	for (size_t i = 0; i < sizeof own / sizeof own[0]; i++)
		sigdelset(&stops, own[i]);
	pthread_sigmask(SIG_BLOCK, &stops, before);
}

static int replace_files(struct replacement *files, size_t count,
			 size_t *failed)
{
	int reason = 0;

	for (size_t i = 0; reason == 0 && i < count; i++) {
		*failed = i;
		if (!files[i].through)
			reason = stage(&files[i]);
	}
	for (size_t i = 0; reason == 0 && i < count; i++) {
		*failed = i;
		if (!files[i].through)
			reason = put(&files[i]);
		files[i].done = reason == 0;
	}
	for (size_t i = 0; i < count; i++)
		if (!files[i].through)
			finish(&files[i], reason != 0);
	return reason;
}

int replace_all(struct replacement *files, size_t count, size_t *failed)
{
	sigset_t before;
	int reason = 0;

	for (size_t i = 0; i < count; i++) {
		struct replacement *r = &files[i];

		r->folder = r->fd = -1;
		r->in_place = r->done = 0;
		r->part[0] = '\0';
		r->there = stat(r->path, &r->old) == 0;
		r->through = replace_own(r->path) >= 0 ||
			     (r->there && !S_ISREG(r->old.st_mode) &&
			      !S_ISDIR(r->old.st_mode));
	}
	for (size_t i = 0; i < count && reason == 0; i++) {
		*failed = i;
		if (files[i].through)
			reason = write_through(&files[i]);
	}
	if (reason != 0)
		return reason;
	hold_signals(&before);
	reason = replace_files(files, count, failed);
	if (reason == EFBIG)
		forget(SIGXFSZ);
	pthread_sigmask(SIG_SETMASK, &before, NULL);
	return reason;
}
#endif

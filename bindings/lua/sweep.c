/* SPDX-License-Identifier: MIT */
#ifndef __wasi__
#define _GNU_SOURCE		/* flock */
#include <dirent.h>
#include <fcntl.h>
#include <string.h>
#include <sys/file.h>
#include <time.h>
#include <unistd.h>

#include "replace.h"

/* What a run that was killed left beside its outputs. */
#define AGE_S 60

static int is_part(const char *name)
{
	const size_t n = sizeof REPLACE_PART - 1;

	return strncmp(name, REPLACE_PART, n) == 0 &&
	       strlen(name) == n + REPLACE_DIGITS &&
	       strspn(name + n, "0123456789abcdef") == REPLACE_DIGITS;
}

/* Whoever writes one holds a lock on it, which ends with the process. */
static int is_left(int fd)
{
	struct stat st;

	return fstat(fd, &st) == 0 && S_ISREG(st.st_mode) &&
	       st.st_uid == geteuid() &&
	       time(NULL) - st.st_mtime > AGE_S &&
	       flock(fd, LOCK_EX | LOCK_NB) == 0;
}

void replace_sweep(int folder)
{
	int again = openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	DIR *names = again >= 0 ? fdopendir(again) : NULL;
	struct dirent *entry;

	if (!names) {
		if (again >= 0)
			close(again);
		return;
	}
	while ((entry = readdir(names)) != NULL) {
		int fd = is_part(entry->d_name)
			? openat(folder, entry->d_name, O_RDONLY | O_NOFOLLOW |
				 O_NONBLOCK | O_CLOEXEC) : -1;

		if (fd < 0)
			continue;
		if (is_left(fd))
			unlinkat(folder, entry->d_name, 0);
		close(fd);
	}
	closedir(names);
}
#endif

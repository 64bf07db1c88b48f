/* SPDX-License-Identifier: MIT */
#ifndef TARN_REPLACE_H
#define TARN_REPLACE_H

#include <limits.h>
#include <stddef.h>
#include <sys/stat.h>

/*
 * Files written whole or not at all: each text is put on the disk beside its
 * target, without a name where the system can do that, and takes the target's
 * place when all are complete.  Mode and owner of an older file stay, links
 * are followed, a read-only file is refused.
 */
struct replacement {
	const char *path, *text;	/* given: borrowed */
	size_t bytes;
	int through;		/* a pipe or a device: written as it is */
	int there;		/* there is an older file */
	int in_place;		/* which has other names, or another owner */
	int done;
	struct stat old;
	int folder, fd;		/* open, or -1 */
	char target[PATH_MAX];	/* links followed */
	char part[24];		/* name of the new file so far, or "" */
};

/* A new file that must have a name until it takes its target's: so many
 * hexadecimal digits behind this. */
#define REPLACE_PART ".tarn-"
#define REPLACE_DIGITS 16

/* Takes away such files of earlier runs in an open folder (sweep.c): of the same
 * user, older than a minute, and locked by nobody.  What cannot be taken away is
 * no matter. */
void replace_sweep(int folder);

/* Follows the links of a name to a file, which need not be there.  0, or the
 * reason as errno. */
int replace_resolve(const char *path, char target[PATH_MAX]);

/* Folder of a path, "." if it names none, into 'folder'; returns the rest. */
const char *replace_split(const char *path, char folder[PATH_MAX]);

/* 1 or 2 for the names of the program's own output and messages, as /dev/stdout,
 * and links to them, which are written to as they are; else -1. */
int replace_own(const char *path);

/* Whether a text could be put there, as far as one can tell without doing it.
 * 0, or the reason as errno. */
int replace_possible(const char *path);

/*
 * Writes all files, of which only path, text and bytes are filled in.  Pipes
 * and devices come first.  0; or the reason as errno, *failed the index of the
 * file, and every other one as it was.
 */
int replace_all(struct replacement *files, size_t count, size_t *failed);

#endif

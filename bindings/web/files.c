/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <stdio.h>
#include <string.h>

#include "web.h"

/*
 * A page has no files.  These stand in for the C library's, which would make
 * the module ask its host for file descriptors: it needs no imports so.  What
 * web_lend() was given can be read once, as the file that is opened next.
 */

static struct {
	const char *at;
	size_t left;
} lent;

void web_lend(const void *bytes, size_t count)
{
	lent.at = bytes;
	lent.left = count;
}

FILE *fopen(const char *path, const char *mode)
{
	(void)path;
	(void)mode;
	errno = ENOSYS;
	return lent.at ? (FILE *)(void *)&lent : NULL;
}

size_t fread(void *to, size_t size, size_t count, FILE *file)
{
	size_t n = lent.left / size < count ? lent.left / size : count;

	(void)file;
	memcpy(to, lent.at, n * size);
	lent.at += n * size;
	lent.left -= n * size;
	return n;
}

int setvbuf(FILE *file, char *buffer, int mode, size_t size)
{
	(void)file;
	(void)buffer;
	(void)mode;
	(void)size;
	return 0;
}

int ferror(FILE *file)
{
	(void)file;
	return 0;
}

int fclose(FILE *file)
{
	(void)file;
	web_lend(NULL, 0);
	return 0;
}

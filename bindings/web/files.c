/* SPDX-License-Identifier: MIT */
#include <errno.h>
#include <stdio.h>

/*
 * A page has no files.  These stand in for the C library's, which would make
 * the module ask its host for file descriptors: it needs no imports so.
 */

FILE *fopen(const char *path, const char *mode)
{
	(void)path;
	(void)mode;
	errno = ENOSYS;
	return NULL;
}

/* Never reached, since nothing was opened. */
size_t fread(void *to, size_t size, size_t count, FILE *file)
{
	(void)to;
	(void)size;
	(void)count;
	(void)file;
	return 0;
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
	return 1;
}

int fclose(FILE *file)
{
	(void)file;
	return EOF;
}

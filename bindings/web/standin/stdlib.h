/* SPDX-License-Identifier: MIT
 * wasi-libc's, with the one name under which a file is written first. */
#ifndef WEB_STDLIB_H
#define WEB_STDLIB_H

#include_next <stdlib.h>
#include <fcntl.h>
#include <string.h>

/* One program, one file at a time: any name that is no other's will do. */
static inline int mkstemp(char *path)
{
	memcpy(path + strlen(path) - 6, "webtmp", 6);
	return open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
}

#endif

/* SPDX-License-Identifier: MIT */
#ifndef TARN_BIND_LEAK_H
#define TARN_BIND_LEAK_H

#include "bind.h"

/* Readings of a log, from a file or from a list. */
struct log_box {
	struct tarn_log *log;	/* NULL where they come from a list */
	const struct tarn_reading *readings;
	size_t count;
	struct tarn_log_info info;
	char path[200];		/* for messages; "" for a list */
};

/* Log at 'arg'; raises if it is none. */
const struct log_box *bind_check_log(lua_State *L, int arg);

#endif

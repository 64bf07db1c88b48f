/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEB_MEMBERS_H
#define TARN_WEB_MEMBERS_H

/*
 * Where in the structs of results the numbers stand.  Names are those of the
 * Lua tables: without unit, but for mm.  The page reads them in place.
 */

#include <stddef.h>

struct member {
	const char *name;	/* NULL ends a list */
	size_t offset;
	int type;		/* 'd' double, 'i' int, 'u' unsigned, 's' text, 'x' a
				   struct of another list */
	int count;		/* of an array */
};

#define SCALAR(type_of, name, member, type) \
	{ name, offsetof(struct type_of, member), type, 1 }

/* Of the results of bucket tests and logs: leak_members.c. */
extern const struct member web_estimate_members[],
	web_half_members[],
	web_pair_members[],
	web_log_info_members[],
	web_reading_members[],
	web_interval_members[],
	web_leak_members[],
	web_point_members[],
	web_meter_week_members[],
	web_holdout_members[];

#endif

/* SPDX-License-Identifier: MIT */
#ifndef TARN_WEB_H
#define TARN_WEB_H

/*
 * The library for a browser page: a flat set of functions on one session, in
 * numbers and NUL-terminated text, compiled to WebAssembly without imports.
 * No arithmetic here, and no physics in the page's scripts.
 *
 * Words of these files:
 *   failed    the function returns 0; web_message() says why, in the same
 *             words as the runner
 *   borrowed  the pointer holds until the next call of the same function
 *
 * Results are handed over as C structs; web_members() says where in a struct
 * each number stands, so that the page needs to know no offsets.
 */

#include "tarn.h"

#define WEB(name) __attribute__((export_name(#name)))

#define WEB_LAYERS_MAX 16

struct web_session {
	struct tarn_error err;
	char message[640];

	/* description */
	struct tarn_pond pond;
	struct tarn_basin *basin;
	struct tarn_shelved shape;
	double *table;			/* levels, then areas */
	size_t table_rows;		/* 0: the shelved shape */
	struct tarn_evaporation_options evaporation;	/* as described */
	struct tarn_evaporation_options options;	/* and the pond's size */
	struct tarn_works works;
	struct tarn_works_flow running;
	struct tarn_pond_facts facts;
	int ready;			/* the pond passed its checks */

	/* the entry of a list that is being set */
	struct tarn_layer layer;
	struct tarn_pipe_run pipe;
	struct tarn_fall fall;
	struct tarn_catchment catchment;

	/* weather */
	struct tarn_csv_map map;
	struct tarn_read_report report;
	struct tarn_weather *weather;

	/* run */
	struct tarn_ledger *ledger;
	struct tarn_forcing forcing;
	double *rates, *other_rates;	/* open water, then grass */
	struct tarn_evaporation_report found;
	struct tarn_period *period;
	long *endurance;

	/* bed */
	struct tarn_sizing sizing;
	struct tarn_sizing_result sized;
	struct tarn_bed_check *cells;
	struct tarn_waste waste;
	struct tarn_layer layers[WEB_LAYERS_MAX];
	int layer_count;

	struct tarn_yard yard;
	struct tarn_yard_corner corner, corners[TARN_YARD_CORNERS];

	/* bucket test */
	struct tarn_pair pair;

	/* log of levels */
	struct tarn_log_options log_options;
	struct tarn_leak_options leak_options;
	struct tarn_log *log;
	struct tarn_weather *log_weather;
	double *log_rates;
	struct tarn_forcing log_forcing;
	struct tarn_evaporation_report log_found;
	struct tarn_leak *leak;
	struct tarn_level_point *points;
};

extern struct web_session web;

/* Forgets the last error; then any call may take &web.err. */
struct tarn_error *web_error(void);

/* Makes the message from web.err, as the runner words it; always 0. */
int web_fail(const char *path);

/* The same from a format. */
int web_mistake(const char *format, ...) TARN_PRINTF(1, 2);

/* Room for 'bytes' in place of *block; 0 and a message if there is none. */
int web_room(void *block, size_t bytes);

/* The bytes of the one file that can be opened next, under any name. */
void web_lend(const void *bytes, size_t count);

/* Evaporation of the weather by a method (TARN_METHODS: as described) into
 * *rates, which grows as need be; the forcing borrows both.  0 if it fails. */
int web_forcing(const struct tarn_weather *w, int method, double **rates,
		struct tarn_forcing *forcing,
		struct tarn_evaporation_report *found);

#endif

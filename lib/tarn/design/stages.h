/* SPDX-License-Identifier: MIT */
#ifndef TARN_DESIGN_STAGES_H
#define TARN_DESIGN_STAGES_H

#include "tarn/design.h"

/*
 * What follows from a description follows in stages.  A set of those that
 * changed; what follows cheaply (bed's area and layers, heads of falls and
 * stream, water in transit, all checks) follows anew with any of the last
 * three.
 */
enum {
	DESIGN_PLAIN = 0,	/* nothing: the number itself is used */
	DESIGN_WEATHER = 1,	/* evaporation */
	DESIGN_TRANSIT = 2,	/* nothing but what follows cheaply */
	DESIGN_WORKS = 4,	/* flow of the pump, by all pipes */
	DESIGN_BASIN = 8,	/* its table of levels */
	DESIGN_FOLLOWS = DESIGN_TRANSIT | DESIGN_WORKS | DESIGN_BASIN
};

/* The stage that a change of the field at the path touches. */
unsigned tn_design_stage_of(const char *path);

/* Works out again what follows from 'given' in these stages; 'out' was
 * resolved before from a design that differs in nothing else, and is unusable
 * after a failure until all that follows is resolved. */
enum tarn_status tn_design_resolve_stages(const struct tarn_design *given,
					  unsigned stages,
					  struct tarn_resolved *out,
					  struct tarn_error *err);

/* The description's options, with the area and mean depth of the pond at its
 * lip and the medians of its site's words where it gives none. */
struct tarn_evaporation_options
tn_design_evaporation(const struct tarn_design *given,
		      const struct tarn_pond *pond);

/* Whether a place holds numbers: one, or by month, list or pair. */
int tn_design_is_number(const struct tarn_place *place);

/* Spans: both ends of one sort, in their order. */
enum tarn_status tn_design_check_schedules(const struct tarn_design *given,
					   struct tarn_error *err);

#endif

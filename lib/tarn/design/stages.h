/* SPDX-License-Identifier: MIT */
#ifndef TARN_DESIGN_STAGES_H
#define TARN_DESIGN_STAGES_H

#include "tarn/design.h"

/*
 * What follows from a description follows in stages; a stage that changes
 * changes all behind it but the weather's.
 */
enum design_stage {
	DESIGN_PLAIN,		/* nothing: the number itself is used */
	DESIGN_WEATHER,		/* evaporation */
	DESIGN_TRANSIT,		/* bed's area and layers, heads of falls and
				   stream, water in transit */
	DESIGN_WORKS,		/* flow of the pump, by all pipes */
	DESIGN_BASIN
};

/* First stage that a change of the field at the path touches. */
enum design_stage tn_design_stage_of(const char *path);

/* Works out again what follows from 'given', from a stage on; 'out' was
 * resolved before from a design that differs in these stages only, and is
 * unusable after a failure until resolved from the basin on. */
enum tarn_status tn_design_resolve_from(const struct tarn_design *given,
					enum design_stage stage,
					struct tarn_resolved *out,
					struct tarn_error *err);

/* The description's options, with the area and mean depth of the pond at its
 * lip where it gives none. */
struct tarn_evaporation_options
tn_design_evaporation(const struct tarn_design *given,
		      const struct tarn_pond *pond);

/* Whether a place holds numbers: one, or by month, list or pair. */
int tn_design_is_number(const struct tarn_place *place);

/* Spans: both ends of one sort, in their order. */
enum tarn_status tn_design_check_schedules(const struct tarn_design *given,
					   struct tarn_error *err);

#endif

/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_LOADING_H
#define TARN_FORMULAS_LOADING_H

/*
 * loading: surface loading of a bed, and the loadings that were measured or
 * are used.  Part of bed.h, whose first lines give the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * q = Q / A: flow over plan area.  The first number to settle, since published
 * values span four powers of ten.  Any of the three from the other two;
 * NaN unless both are positive and finite.
 *
 *   flow_m3s     through the bed                        [m3/s]
 *   area_m2      plan area                              [m2]
 *   loading_m_d  surface loading rate                   [m/d]
 *
 * Other units are factors of tarn_unit(): m_per_hour, gpm_per_ft2,
 * gph_per_ft2, gpd_per_ft2, lpm_per_m2.
 */
TARN_API double tarn_bed_loading(double flow_m3s, double area_m2);
TARN_API double tarn_bed_area(double flow_m3s, double loading_m_d);
TARN_API double tarn_bed_flow(double loading_m_d, double area_m2);

/* Uses of a bed, for the table below. */
enum tarn_bed_purpose {
	TARN_PURPOSE_SEWAGE,	/* sewage, greywater and their polishing */
	TARN_PURPOSE_AQUACULTURE,	/* water of fish and shrimp farms */
	TARN_PURPOSE_SWIMMING,	/* planted filters of swimming ponds */
	TARN_PURPOSE_ORNAMENTAL,	/* gravel beds of garden ponds */
	TARN_PURPOSE_ROUGHING,	/* gravel roughing of river water */
	TARN_PURPOSES		/* how many; also 'any purpose' */
};

/* "sewage", "aquaculture", ...; NULL outside. */
TARN_API const char *tarn_bed_purpose_name(enum tarn_bed_purpose purpose);

/* Surface loadings that were measured or are taught, slowest first. */
struct tarn_loading_range {
	const char *kind;		/* kind of bed */
	enum tarn_bed_purpose purpose;
	double lo_m_d, hi_m_d;		/* equal: one value; lo 0: 'up to' */
	const char *removal;		/* what it removed there, or "" */
	const char *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_loading_range_fields;

TARN_API const struct tarn_loading_range *tarn_loading_ranges(size_t *count);

/* How far a loading is outside lo..hi: 1 inside, above 1 the factor over hi,
 * under 1 the factor under lo.  NaN if the loading or hi is not positive. */
TARN_API double tarn_loading_factor(double loading_m_d, double lo_m_d,
				    double hi_m_d);

/*
 * Where a loading falls among the ranges of one purpose (TARN_PURPOSES: of
 * all). 'factor' is tarn_loading_factor to the nearest row, 'lo' and 'hi' the
 * ends of all rows of that purpose, 'inside' how many rows hold it.  Errors:
 * TARN_EARG.
 */
struct tarn_loading_place {
	const struct tarn_loading_range *nearest;
	size_t inside;
	double factor, lo_m_d, hi_m_d;
};
TARN_API extern const struct tarn_fields tarn_loading_place_fields;

TARN_API enum tarn_status tarn_loading_place(double loading_m_d,
					     enum tarn_bed_purpose purpose,
					     struct tarn_loading_place *out,
					     struct tarn_error *err);

/* The four kinds that a designer chooses between; no default among them. */
struct tarn_bed_kind {
	const char *name;		/* "slow_planted", "aquaculture", ... */
	double lo_m_d, hi_m_d;
	const char *meaning;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_bed_kind_fields;

TARN_API const struct tarn_bed_kind *tarn_bed_kinds(size_t *count);

/*
 * Common practice, no source; ranges in use that overlap are one row.  Some
 * rules count the bed's area against the pond's surface, some the bed's volume,
 * stone and all, against the pond's volume: the two are often mixed up, and
 * differ by the ratio of the depths.
 */
enum tarn_rule_basis {
	TARN_RULE_SURFACE,	/* bed area / pond surface */
	TARN_RULE_VOLUME,	/* bed volume / pond volume */
	TARN_RULE_TURNOVER	/* pond volumes pumped per hour */
};

struct tarn_bed_rule {
	enum tarn_rule_basis basis;
	double lo, hi;
	const char *text;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_bed_rule_fields;

/* All are common practice without a source. */
TARN_API const struct tarn_bed_rule *tarn_bed_rules(size_t *count);

/*
 * Turnover [1/h]: how many times an hour a flow would fill a pond.
 *
 *   flow_m3s   through the bed; without a bed the pump's
 *   volume_m3  of the basin up to the overflow level, stone and all, > 0
 *   returns    [1/h] NaN for a volume that is not > 0, or a flow < 0
 */
TARN_API double tarn_turnover_per_h(double flow_m3s, double volume_m3);

/* Part of a well-mixed pond's water that has been through the bed at least
 * once after so many turnovers: 1 - exp(-N), never all of it. */
TARN_API double tarn_turnover_exposed(double turnovers);

/* Mean time of water in the bed's voids, A d n / Q [s], before dead zones:
 * tracers in gravel beds showed 0.68 to 0.87 of it (Water Sci. Technol.
 * 34(3-4):421, abstract).  NaN unless all are positive, porosity up to 1. */
TARN_API double tarn_bed_residence(double flow_m3s, double area_m2,
				   double depth_m, double porosity);

#ifdef __cplusplus
}
#endif
#endif

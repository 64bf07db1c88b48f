/* SPDX-License-Identifier: MIT */
#ifndef TARN_FORMULAS_WASTE_H
#define TARN_FORMULAS_WASTE_H

/*
 * waste: what fish put into the water.  Part of bed.h, whose first lines give
 * the units and conventions.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/*
 * Feed is the load: per kg of it come ammonia, solids, phosphorus and a demand
 * for oxygen.  Where only the fish are known, feed = mass x share of body
 * weight x appetite.
 */

/*
 * Part of the full ration at a temperature: 0 below 10 deg C, 1 from 21 deg C,
 * a straight line between.  Common practice, no source (in use: none
 * below 10, full when warm); the line is ours.  NaN outside 0 .. 40.
 */
TARN_API double tarn_appetite(double temp_c);

struct tarn_waste {
	double feed_g;		/* dry feed a day; NaN: from the fish */
	double protein;		/* part of the feed                0.1 .. 0.7 */
	double fish_kg;
	double ration;		/* full ration, part of body weight a day */
	double temp_c;
	double ammonia_per_protein;	/* g N of ammonia per g protein */
	double solids_per_feed;		/* g per g */
	double phosphorus_per_feed;
	double oxygen_per_feed;		/* breathed by the fish */
	double bod_per_feed;		/* for bacteria, nitrification apart */
};

TARN_API extern const struct tarn_fields tarn_waste_fields;

/*
 * protein 0.35, ration 0.02, 20 deg C; per g: ammonia 0.092 (Timmons &
 * Ebeling, from memory: 0.16 x 0.80 x 0.80 x 0.90), solids 0.275 and
 * phosphorus 0.0075 (middles of 0.25-0.30 and 0.006-0.009, from memory),
 * oxygen 0.25 (from memory), BOD 0.10 (ours: 0.50 with bacteria, from
 * memory, less fish and nitrification at 35 % protein).
 */
TARN_API struct tarn_waste tarn_waste_default(void);

struct tarn_waste_result {
	double feed_g;
	double nitrogen_g;	/* in the feed: 16 % of protein */
	double ammonia_g;	/* as N */
	double ammonia_low_g;	/* least and most of all rules below that */
	double ammonia_high_g;	/* the input allows */
	double solids_g, phosphorus_g, bod_g;
	double fish_oxygen_g;
	double nitrification_oxygen_g;
	double oxygen_g;	/* fish + BOD + nitrification */
	double alkalinity_g;	/* as CaCO3, used by nitrification */
};
TARN_API extern const struct tarn_fields tarn_waste_result_fields;

/* Errors: TARN_EARG; neither feed nor fish given. */
TARN_API enum tarn_status tarn_waste(const struct tarn_waste *w,
				     struct tarn_waste_result *out,
				     struct tarn_error *err);

/* Rules for ammonia nitrogen that are in use; they differ by a factor of 4. */
enum tarn_waste_basis {
	TARN_WASTE_PROTEIN,	/* g per g of protein fed */
	TARN_WASTE_FEED,	/* g per g of feed */
	TARN_WASTE_FISH		/* g per g of fish and day */
};

struct tarn_waste_estimate {
	enum tarn_waste_basis basis;
	double factor;
	const char *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_waste_estimate_fields;

TARN_API const struct tarn_waste_estimate *tarn_waste_estimates(size_t *count);

/* Oxygen, alkalinity (as CaCO3) and new cells per g of nitrogen nitrified.
 * Row 0 is the stoichiometry NH4+ + 2 O2, which the loads above use. */
struct tarn_nitrification {
	double oxygen, alkalinity, cells;	/* g/g; NaN: not given there */
	const char *source;
	enum tarn_evidence evidence;
};
TARN_API extern const struct tarn_fields tarn_nitrification_fields;

TARN_API const struct tarn_nitrification *tarn_nitrifications(size_t *count);

#ifdef __cplusplus
}
#endif
#endif

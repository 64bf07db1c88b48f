/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "rows.h"

#define NITROGEN 0.16		/* of protein */
#define APPETITE_NONE 10.0	/* deg C */
#define APPETITE_FULL 21.0

/* NH4+ + 2 O2 -> NO3- + H2O + 2 H+; alkalinity 2 eq as CaCO3 */
#define MOLAR_N 14.0067
#define MOLAR_O2 31.998
#define MOLAR_CACO3 100.087

#define MEMORY TARN_EVIDENCE_MEMORY
#define PRACTICE TARN_EVIDENCE_PRACTICE

static const char *const bases[] = { "protein", "feed", "fish", NULL };

#define RULE struct tarn_waste_estimate
static const struct tarn_field rule_rows[] = {
	TARN_OUT_CHOICE(RULE, basis, "basis", bases,
			"what the factor multiplies"),
	TARN_OUT_NUMBER(RULE, factor, "factor", "g/g", "ammonia nitrogen"),
	TARN_OUT_STRING(RULE, source, "source", "source"),
	TARN_OUT_EVIDENCE(RULE),
};

TARN_FIELDS(tarn_waste_estimate_fields, "waste_estimate", rule_rows);

#define NITRIFICATION struct tarn_nitrification
static const struct tarn_field nitrification_rows[] = {
	TARN_OUT_NUMBER(NITRIFICATION, oxygen, "oxygen", "g/g",
			"oxygen used, per nitrogen"),
	TARN_OUT_NUMBER(NITRIFICATION, alkalinity, "alkalinity", "g/g",
			"alkalinity used, as CaCO3"),
	TARN_OUT_NUMBER(NITRIFICATION, cells, "cells", "g/g", "new cells"),
	TARN_OUT_STRING(NITRIFICATION, source, "source", "source"),
	TARN_OUT_EVIDENCE(NITRIFICATION),
};

TARN_FIELDS(tarn_nitrification_fields, "nitrification", nitrification_rows);

double tarn_appetite(double temp_c)
{
	if (!(temp_c >= 0 && temp_c <= 40))
		return TARN_NAN;
	return fmin(1, fmax(0, (temp_c - APPETITE_NONE) /
			       (APPETITE_FULL - APPETITE_NONE)));
}

static const struct tarn_waste_estimate rules[] = {
	{ TARN_WASTE_PROTEIN, 0.092,
	  "Timmons & Ebeling, 0.16 x 0.80 x 0.80 x 0.90", MEMORY },
	{ TARN_WASTE_PROTEIN, 0.16 * 0.64, "64 % of the nitrogen", PRACTICE },
	{ TARN_WASTE_PROTEIN, 0.16 * 0.61 * 1.2,
	  "FAO Technical Paper 589 (2014), appendix", MEMORY },
	{ TARN_WASTE_PROTEIN, 0.144, "90 % of the nitrogen, ponds without "
	  "exchange", PRACTICE },
	{ TARN_WASTE_FEED, 0.025, "25 g per kg of feed", PRACTICE },
	{ TARN_WASTE_FISH, 0.00025, "25 mg per 100 g of fish a day",
	  PRACTICE },
};

const struct tarn_waste_estimate *tarn_waste_estimates(size_t *count)
{
	*count = sizeof rules / sizeof rules[0];
	return rules;
}

static const struct tarn_nitrification nitrifications[] = {
	{ 2 * MOLAR_O2 / MOLAR_N, MOLAR_CACO3 / MOLAR_N, 0,
	  "stoichiometry, no growth", TARN_EVIDENCE_OURS },
	{ 3.22 + 1.11, TARN_NAN, 0.17, "Gujer & Jenkins 1975, Water Res. 9",
	  TARN_EVIDENCE_SECOND_HAND },
	{ 4.18, 7.05, TARN_NAN, "Ebeling et al. 2006", MEMORY },
};

const struct tarn_nitrification *tarn_nitrifications(size_t *count)
{
	*count = sizeof nitrifications / sizeof nitrifications[0];
	return nitrifications;
}

#define IN struct tarn_waste
static const struct tarn_field rows[] = {
	TARN_IN_NUMBER(IN, feed_g, "feed_g", "g/d", 0, 1e9, TARN_NAN,
		       "dry feed a day"),
	TARN_IN_VALUE(IN, protein, "protein", "-", 0.1, 0.7, 0.35,
		      "protein in the feed"),
	TARN_IN_NUMBER(IN, fish_kg, "fish_kg", "kg", 0, 1e7, TARN_NAN,
		       "fish in the pond"),
	TARN_IN_VALUE(IN, ration, "ration", "1/d", 0, 0.2, 0.02,
		      "full ration, part of body weight a day"),
	TARN_IN_VALUE(IN, temp_c, "temp", "deg C", 0, 40, 20,
		      "temperature of the water"),
	TARN_IN_VALUE(IN, ammonia_per_protein, "ammonia_per_protein", "g/g", 0,
		      0.16, 0.092, "ammonia nitrogen from protein fed"),
	TARN_IN_VALUE(IN, solids_per_feed, "solids_per_feed", "g/g", 0, 1,
		      0.275, "solids from feed"),
	TARN_IN_VALUE(IN, phosphorus_per_feed, "phosphorus_per_feed", "g/g", 0,
		      0.05, 0.0075, "phosphorus from feed"),
	TARN_IN_VALUE(IN, oxygen_per_feed, "oxygen_per_feed", "g/g", 0, 2, 0.25,
		      "oxygen that the fish breathe"),
	TARN_IN_VALUE(IN, bod_per_feed, "bod_per_feed", "g/g", 0, 2, 0.10,
		      "oxygen for bacteria, without nitrification"),
};

TARN_FIELDS(tarn_waste_fields, "waste", rows);
TARN_DEFAULT(IN, tarn_waste_default, tarn_waste_fields)

#define OUT struct tarn_waste_result
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, feed_g, "feed_g", "g/d", "dry feed"),
	TARN_OUT_NUMBER(OUT, nitrogen_g, "nitrogen_g", "g/d",
			"nitrogen in the feed"),
	TARN_OUT_NUMBER(OUT, ammonia_g, "ammonia_g", "g/d", "ammonia nitrogen"),
	TARN_OUT_NUMBER(OUT, ammonia_low_g, "ammonia_low_g", "g/d",
			"least by any rule in use"),
	TARN_OUT_NUMBER(OUT, ammonia_high_g, "ammonia_high_g", "g/d",
			"most by any rule in use"),
	TARN_OUT_NUMBER(OUT, solids_g, "solids_g", "g/d", "solids"),
	TARN_OUT_NUMBER(OUT, phosphorus_g, "phosphorus_g", "g/d", "phosphorus"),
	TARN_OUT_NUMBER(OUT, bod_g, "bod_g", "g/d",
			"oxygen for bacteria, without nitrification"),
	TARN_OUT_NUMBER(OUT, fish_oxygen_g, "fish_oxygen_g", "g/d",
			"oxygen that the fish breathe"),
	TARN_OUT_NUMBER(OUT, nitrification_oxygen_g, "nitrification_oxygen_g",
			"g/d", "oxygen for nitrification"),
	TARN_OUT_NUMBER(OUT, oxygen_g, "oxygen_g", "g/d",
			"oxygen, all three together"),
	TARN_OUT_NUMBER(OUT, alkalinity_g, "alkalinity_g", "g/d",
			"alkalinity as CaCO3 that nitrification uses"),
};

TARN_FIELDS(tarn_waste_result_fields, "waste", result_rows);

/* Least and most ammonia by all the rules that the input can feed. */
static void ammonia_band(const struct tarn_waste *w,
			 struct tarn_waste_result *r)
{
	r->ammonia_low_g = r->ammonia_high_g = r->ammonia_g;
	for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++) {
		double g = rules[i].factor;

		if (rules[i].basis == TARN_WASTE_PROTEIN)
			g *= r->feed_g * w->protein;
		else if (rules[i].basis == TARN_WASTE_FEED)
			g *= r->feed_g;
		else	/* the rule is for fish that eat their fill */
			g *= w->fish_kg * 1000 * tarn_appetite(w->temp_c);
		if (isnan(g))
			continue;
		r->ammonia_low_g = fmin(r->ammonia_low_g, g);
		r->ammonia_high_g = fmax(r->ammonia_high_g, g);
	}
}

enum tarn_status tarn_waste(const struct tarn_waste *w,
			    struct tarn_waste_result *out,
			    struct tarn_error *err)
{
	struct tarn_waste_result r = { 0 };
	enum tarn_status st = tarn_fields_check(&tarn_waste_fields, w, err);

	if (st != TARN_OK)
		return st;
	if (isnan(w->feed_g) && isnan(w->fish_kg))
		return tarn_fail(err, TARN_EARG, "waste.feed_g", "is missing: "
				 "give the feed, or fish_kg and temp");
	r.feed_g = !isnan(w->feed_g) ? w->feed_g
		: w->fish_kg * 1000 * w->ration * tarn_appetite(w->temp_c);
	r.nitrogen_g = r.feed_g * w->protein * NITROGEN;
	r.ammonia_g = r.feed_g * w->protein * w->ammonia_per_protein;
	ammonia_band(w, &r);
	r.solids_g = r.feed_g * w->solids_per_feed;
	r.phosphorus_g = r.feed_g * w->phosphorus_per_feed;
	r.bod_g = r.feed_g * w->bod_per_feed;
	r.fish_oxygen_g = r.feed_g * w->oxygen_per_feed;
	r.nitrification_oxygen_g = r.ammonia_g * nitrifications[0].oxygen;
	r.oxygen_g = r.fish_oxygen_g + r.bod_g + r.nitrification_oxygen_g;
	r.alkalinity_g = r.ammonia_g * nitrifications[0].alkalinity;
	*out = r;
	return TARN_OK;
}

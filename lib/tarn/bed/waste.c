/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "tarn/bed.h"

#define NITROGEN 0.16		/* of protein */
#define APPETITE_NONE 10.0	/* deg C */
#define APPETITE_FULL 21.0

/* NH4+ + 2 O2 -> NO3- + H2O + 2 H+; alkalinity 2 eq as CaCO3 */
#define MOLAR_N 14.0067
#define MOLAR_O2 31.998
#define MOLAR_CACO3 100.087

#define MEMORY TARN_EVIDENCE_MEMORY
#define PRACTICE TARN_EVIDENCE_PRACTICE

double tarn_appetite(double temp_c)
{
	if (!(temp_c >= 0 && temp_c <= 40))
		return TARN_NAN;
	return fmin(1, fmax(0, (temp_c - APPETITE_NONE) /
			       (APPETITE_FULL - APPETITE_NONE)));
}

static const struct tarn_waste_rule rules[] = {
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

const struct tarn_waste_rule *tarn_waste_rules(size_t *count)
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

#define WASTE(name, member, lo, hi, required, unit, meaning)            \
	{ name, TARN_FIELD_NUMBER, offsetof(struct tarn_waste, member), \
	  lo, hi, required, unit, NULL, meaning }

static const struct tarn_field rows[] = {
	WASTE("feed_g", feed_g, 0, 1e9, 0, "g/d", "dry feed a day"),
	WASTE("protein", protein, 0.1, 0.7, 1, "-", "protein in the feed"),
	WASTE("fish_kg", fish_kg, 0, 1e7, 0, "kg", "fish in the pond"),
	WASTE("ration", ration, 0, 0.2, 1, "1/d",
	      "full ration, part of body weight a day"),
	WASTE("temp", temp_c, 0, 40, 1, "deg C", "temperature of the water"),
	WASTE("ammonia_per_protein", ammonia_per_protein, 0, 0.16, 1, "g/g",
	      "ammonia nitrogen from protein fed"),
	WASTE("solids_per_feed", solids_per_feed, 0, 1, 1, "g/g",
	      "solids from feed"),
	WASTE("phosphorus_per_feed", phosphorus_per_feed, 0, 0.05, 1, "g/g",
	      "phosphorus from feed"),
	WASTE("oxygen_per_feed", oxygen_per_feed, 0, 2, 1, "g/g",
	      "oxygen that the fish breathe"),
	WASTE("bod_per_feed", bod_per_feed, 0, 2, 1, "g/g",
	      "oxygen for bacteria, without nitrification"),
};

const struct tarn_fields tarn_waste_fields = {
	"waste", rows, sizeof rows / sizeof rows[0]
};

struct tarn_waste tarn_waste_default(void)
{
	struct tarn_waste w = { 0 };

	w.feed_g = w.fish_kg = TARN_NAN;
	w.protein = 0.35;
	w.ration = 0.02;
	w.temp_c = 20;
	w.ammonia_per_protein = 0.092;
	w.solids_per_feed = 0.275;
	w.phosphorus_per_feed = 0.0075;
	w.oxygen_per_feed = 0.25;
	w.bod_per_feed = 0.10;
	return w;
}

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

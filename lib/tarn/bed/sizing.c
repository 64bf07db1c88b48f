/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "judge.h"

#define NUMBER(name, member, lo, hi, required, unit, meaning)            \
	{ name, TARN_FIELD_NUMBER, offsetof(struct tarn_sizing, member), \
	  lo, hi, required, unit, NULL, meaning }
#define ASKED(name, member, lo, hi, unit, meaning) \
	NUMBER(name, member, lo, hi, 0, unit, meaning)
#define ALWAYS(name, member, lo, hi, unit, meaning) \
	NUMBER(name, member, lo, hi, 1, unit, meaning)

static const char *const regimes[] = {
	"none", "slow_planted", "aquaculture", "roughing", "bog", NULL
};
static const char *const directions[] = { "upflow", "horizontal", NULL };

static const struct tarn_field rows[] = {
	ASKED("flow", flow_m3s, 1e-8, 10, "m3/s", "through the bed"),
	ASKED("turnover", turnover_per_h, 1e-4, 100, "1/h",
	      "pond volumes an hour, where the flow is not given"),
	ASKED("pond_area", pond_area_m2, 0.01, 1e7, "m2", "surface of the "
	      "pond"),
	ASKED("pond_volume", pond_volume_m3, 1e-3, 1e7, "m3", "water of the "
	      "pond"),
	ASKED("area", area_m2, 1e-3, 1e7, "m2", "of a bed to judge"),
	ASKED("loading", loading_m_d, 1e-4, 1e4, "m/d", "surface loading to "
	      "size by"),
	{ "regime", TARN_FIELD_CHOICE, offsetof(struct tarn_sizing, regime),
	  0, 4, 0, "-", regimes, "loading to size by, by name" },
	ASKED("surface_share", surface_share, 1e-4, 10, "-",
	      "bed area over pond surface"),
	ASKED("volume_share", volume_share, 1e-4, 10, "-",
	      "bed volume, stone and all, over pond volume"),
	ASKED("feed_g", feed_g, 0, 1e9, "g/d", "dry feed a day"),
	ALWAYS("protein", protein, 0.1, 0.7, "-", "protein in the feed"),
	ASKED("ammonia_g", ammonia_g, 0, 1e9, "g/d", "ammonia nitrogen load"),
	ASKED("bod_g", bod_g, 0, 1e9, "g/d", "BOD load"),
	ASKED("solids_g", solids_g, 0, 1e9, "g/d", "solids load"),
	ASKED("pond_target", pond_target_mgl, 0, 1e6, "mg/L",
	      "ammonia nitrogen wanted in the pond when steady"),
	ASKED("inlet", inlet_mgl, 0, 1e6, "mg/L", "concentration in, for one "
	      "pass"),
	ASKED("target", target_mgl, 0, 1e6, "mg/L", "concentration out, for "
	      "one pass"),
	ALWAYS("background", background_mgl, 0, 1e6, "mg/L",
	       "C*, below which no bed gets it"),
	ASKED("k_m_yr", k_m_yr, 0, 1e6, "m/yr", "areal removal rate at 20 "
	      "deg C"),
	ALWAYS("theta", theta, 0.8, 1.4, "-", "temperature factor of the rate "
	       "per deg C"),
	ALWAYS("tanks", tanks, 1, HUGE_VAL, "-", "equal mixed tanks in a row; "
	       "infinity is plug flow"),
	ALWAYS("temp", temp_c, 0, 40, "deg C", "temperature of the water"),
	ASKED("k_low", k_low_m_d, 0, 1e4, "m/d", "least loading at which the "
	      "rate was measured"),
	ASKED("k_high", k_high_m_d, 1e-6, 1e4, "m/d", "highest loading at "
	      "which the rate was measured"),
	ALWAYS("media_rate", media_rate, 1e-3, 10, "g/m2/d",
	       "nitrogen that a m2 of stone nitrifies a day"),
	ALWAYS("safety", safety, 1, 100, "-", "on the media's rate"),
	ALWAYS("bod_limit", bod_limit, 1e-3, 1e4, "g/m2/d", "BOD on a m2 of "
	       "bed"),
	ALWAYS("solids_limit", solids_limit, 1e-3, 1e4, "g/m2/d",
	       "solids on a m2 of bed"),
	ALWAYS("section_limit", section_limit, 1e-3, 1e5, "g/m2/d",
	       "BOD on a m2 of cross-section of a horizontal bed"),
	ASKED("oxygen", oxygen_mgl, 0, 30, "mg/L", "at the inlet"),
	ALWAYS("elevation", elevation_m, -430, 6000, "m", "over the sea"),
	{ "direction", TARN_FIELD_CHOICE,
	  offsetof(struct tarn_sizing, direction), 0, 1, 0, "-", directions,
	  "way of the water" },
	ASKED("depth", depth_m, 0.05, 10, "m", "wet depth of the bed"),
	ASKED("diameter", diameter_m, 1e-5, 0.5, "m", "size of the stone"),
	ASKED("porosity", porosity, 0.05, 0.95, "-", "voids of the bed"),
	ALWAYS("sphericity", sphericity, 0.3, 1, "-",
	       "1 sphere, 0.82 rounded, 0.73 crushed"),
	ALWAYS("density", density_kgm3, 900, 1100, "kg/m3", "of the water"),
	ALWAYS("viscosity", viscosity_pas, 1e-4, 1e-2, "Pa s", "of the "
	       "water"),
	ALWAYS("clogging", clogging, 1, 1e4, "-", "head loss is so many times "
	       "the clean one"),
	ASKED("width", width_m, 0.05, 1e4, "m", "of the bed, along the lip"),
	ASKED("length", length_m, 0.05, 1e4, "m", "longest that fits, from "
	      "lip to far side"),
	ASKED("max_area", max_area_m2, 1e-3, 1e7, "m2", "largest that fits"),
	ASKED("head", head_m, -10, 100, "m", "to spare: bed lip over pond "
	      "level, or what the pump has left"),
	ALWAYS("outlet_head", outlet_head_m, 0, 10, "m", "water over the lip "
	       "at this flow"),
	ASKED("freeboard", freeboard_m, -1, 10, "m", "top of the gravel over "
	      "the lip"),
};

const struct tarn_fields tarn_sizing_fields = {
	"size", rows, sizeof rows / sizeof rows[0]
};

struct tarn_sizing tarn_sizing_default(void)
{
	struct tarn_sizing s = { .protein = 0.35, .theta = 1,
				 .tanks = HUGE_VAL, .temp_c = 20,
				 .media_rate = 0.2, .safety = 2,
				 .bod_limit = 6, .solids_limit = 20,
				 .section_limit = 250, .sphericity = 1,
				 .density_kgm3 = 998.2,
				 .viscosity_pas = 1.0016e-3, .clogging = 10 };
	double *const none[] = {
		&s.flow_m3s, &s.turnover_per_h, &s.pond_area_m2,
		&s.pond_volume_m3, &s.area_m2, &s.loading_m_d,
		&s.surface_share, &s.volume_share, &s.feed_g, &s.ammonia_g,
		&s.bod_g, &s.solids_g, &s.pond_target_mgl, &s.inlet_mgl,
		&s.target_mgl, &s.k_m_yr, &s.k_low_m_d, &s.k_high_m_d,
		&s.oxygen_mgl, &s.depth_m, &s.diameter_m, &s.porosity,
		&s.width_m, &s.length_m, &s.max_area_m2, &s.head_m,
		&s.freeboard_m,
	};

	for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
		*none[i] = TARN_NAN;
	return s;
}

void tarn_sizing_use(struct tarn_sizing *in, const struct tarn_rate *rate)
{
	struct tarn_treatment t = tarn_treatment_default();

	t.inlet_mgl = in->inlet_mgl;
	t.background_mgl = in->background_mgl;
	tarn_treatment_use(&t, rate);
	in->k_m_yr = !isnan(t.k_m_yr) ? t.k_m_yr
		: tarn_areal_rate(t.k_per_day, in->depth_m, in->porosity);
	in->theta = t.theta;
	in->tanks = t.tanks;
	in->background_mgl = t.background_mgl;
	in->k_low_m_d = t.k_low_m_d;
	in->k_high_m_d = t.k_high_m_d;
}

static enum tarn_status missing(struct tarn_error *err, const char *field,
				const char *why)
{
	return tarn_fail(err, TARN_EARG, field, "is missing: %s", why);
}

/* Loads that are not given come from the feed. */
static enum tarn_status fill_loads(struct tarn_sizing *s,
				   struct tarn_error *err)
{
	struct tarn_waste w = tarn_waste_default();
	struct tarn_waste_result r;
	enum tarn_status st;

	if (isnan(s->feed_g))
		return TARN_OK;
	w.feed_g = s->feed_g;
	w.protein = s->protein;
	st = tarn_waste(&w, &r, err);
	if (st != TARN_OK)
		return st;
	if (isnan(s->ammonia_g))
		s->ammonia_g = r.ammonia_g;
	if (isnan(s->bod_g))
		s->bod_g = r.bod_g;
	if (isnan(s->solids_g))
		s->solids_g = r.solids_g;
	return TARN_OK;
}

/* What is asked must have what it takes, and be possible at all. */
static enum tarn_status check_sense(const struct tarn_sizing *s,
				    struct tarn_error *err)
{
	double wanted = s->pond_target_mgl;
	const char *field = "size.pond_target";

	if (!isnan(wanted) && isnan(s->ammonia_g))
		return missing(err, "size.ammonia_g",
			       "pond_target needs the load (or feed_g)");
	if ((!isnan(wanted) || !isnan(s->target_mgl)) && isnan(s->k_m_yr))
		return missing(err, "size.k_m_yr", "a target needs the "
			       "removal rate of the bed");
	if (!isnan(s->target_mgl) && isnan(s->inlet_mgl))
		return missing(err, "size.inlet", "target needs it");
	if (!(wanted <= s->background_mgl)) {
		wanted = s->target_mgl;
		field = "size.target";
	}
	if (wanted <= s->background_mgl)
		return tarn_fail(err, TARN_EARG, field, "of %g mg/L is "
				 "impossible: no bed of any size gets below "
				 "the background of %g mg/L", wanted,
				 s->background_mgl);
	return bed_loadings_check(s->k_low_m_d, s->k_high_m_d, err);
}

enum tarn_status tarn_sizing_prepare(const struct tarn_sizing *in,
				     struct tarn_sizing *out,
				     struct tarn_error *err)
{
	enum tarn_status st = tarn_fields_check(&tarn_sizing_fields, in, err);

	if (st != TARN_OK)
		return st;
	*out = *in;
	if (isnan(out->flow_m3s))
		out->flow_m3s = out->turnover_per_h * out->pond_volume_m3 /
				3600;
	st = fill_loads(out, err);
	return st == TARN_OK ? check_sense(out, err) : st;
}

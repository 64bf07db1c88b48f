/* SPDX-License-Identifier: MIT */
#include "tarn/bed_plan.h"

#define VALUES(member, name, unit, lo, hi, other, text)               \
	TARN_NUMBER(struct tarn_bed_wish, member, name, unit, lo, hi, \
		    other, text)
#define NUMBER(member, name, unit, lo, hi, other, text) \
	{ VALUES(member, name, unit, lo, hi, other, text) }
#define CHOICE(member, name, words, text) \
	TARN_IN_CHOICE(struct tarn_bed_wish, member, name, words, 0, text)

static const char *const kinds[] = {
	"none", "slow_planted", "aquaculture", "roughing", "bog", NULL
};
static const char *const directions[] = { "upflow", "horizontal", NULL };
static const char *const lip_places[] = { "middle", "corner", NULL };

static const struct tarn_field bed_rows[] = {
	NUMBER(length_m, "length", "m", 0.05, 1e3, TARN_NAN,
	       "from its lip to the far side; with width, instead of area"),
	NUMBER(width_m, "width", "m", 0.05, 1e3, TARN_NAN, "along its lip"),
	NUMBER(cover_m, "cover", "m", 0, 1, 0,
	       "dry stone over the water: the lip lies so far under its top"),
	NUMBER(drop_m, "drop", "m", 0, 10, TARN_NAN,
	       "from its lip down to the pond's water"),
	{ VALUES(available_head_m, "available_head", "m", 0, 100, TARN_NAN,
		 "that the pump has left for the stone; drop if not given"),
	  .was = "spare_head" },
	NUMBER(flow_m3s, "flow", "m3/s", 1e-8, 10, TARN_NAN,
	       "through it; the pump's if not given"),
	NUMBER(loading_m_d, "loading", "m/d", 1e-4, 1e4, TARN_NAN,
	       "surface loading to size by, such as 0.5 * gpm_per_ft2"),
	{ TARN_CHOICE(struct tarn_bed_wish, kind, "kind", "-", kinds, 0,
		      "or a kind of bed: the middle of its loadings is taken"),
	  .was = "regime" },
	NUMBER(surface_share, "surface_share", "-", 1e-3, 10, TARN_NAN,
	       "wanted: its area / the pond's surface"),
	NUMBER(volume_share, "volume_share", "-", 1e-3, 10, TARN_NAN,
	       "wanted: its volume, stone and all / the pond's volume"),
	NUMBER(clogging, "clogging", "-", 1, 1e4, 10,
	       "head lost when it is due for cleaning / when clean"),
	CHOICE(direction, "direction", directions, "way of the water"),
	NUMBER(lip_width_m, "lip_width", "m", 0.01, 100, TARN_NAN,
	       "of its lip, where no fall marked bed tells it; the bed's "
	       "width if nothing does"),
	CHOICE(lip_place, "lip_place", lip_places,
	       "where on its side the lip is"),
	NUMBER(trough_width_m, "trough_width", "m", 0.02, 10, TARN_NAN,
	       "of an open trough in the stone, along the lip's side"),
	NUMBER(trough_depth_m, "trough_depth", "m", 0.005, 5, TARN_NAN,
	       "of that trough's floor under the lip"),
	NUMBER(diameter_m, "diameter", "m", 1e-5, 0.5, TARN_NAN,
	       "size of the stone, where there are no layers"),
	NUMBER(sphericity, "sphericity", "-", 0.3, 1, 1,
	       "of that stone: 1 sphere, 0.82 rounded, 0.73 crushed"),
};
TARN_FIELDS(tarn_bed_wish_fields, "bed", bed_rows);

static const struct tarn_field demand_rows[] = {
	NUMBER(turnover_per_h, "turnover", "1/h", 1e-3, 100, TARN_NAN,
	       "pond volumes an hour wanted"),
	NUMBER(fall_width_m, "fall_width", "m", 0.01, 100, TARN_NAN,
	       "width of the falls"),
	NUMBER(fall_depth_m, "fall_depth", "m", 1e-3, 1, TARN_NAN,
	       "water wanted on their lip, where it moves"),
};
TARN_FIELDS(tarn_bed_demand_fields, "demand", demand_rows);

static const struct tarn_field fish_rows[] = {
	NUMBER(mass_kg, "mass", "kg", 0, 1e5, TARN_NAN, "of all fish"),
	NUMBER(feed_kg, "feed", "kg", 0, 1e4, TARN_NAN,
	       "dry feed a day, such as 60 * g; from the mass if not given"),
	NUMBER(protein, "protein", "-", 0.1, 0.7, 0.35, "share of the feed"),
	NUMBER(ration, "ration", "-", 0, 0.2, 0.02,
	       "feed a day / mass, when the water is warm"),
};
TARN_FIELDS(tarn_bed_fish_fields, "fish", fish_rows);

static const struct tarn_field water_rows[] = {
	NUMBER(temp_c, "temp", "deg C", 0, 40, 20,
	       "of the water in the season to size for"),
	NUMBER(ph, "ph", "-", 4, 12, TARN_NAN, "highest of the day"),
	NUMBER(oxygen_mgl, "oxygen", "mg/L", 0, 30, TARN_NAN,
	       "where the water enters the bed; 0.8 of saturation if not "
	       "given"),
	NUMBER(elevation_m, "elevation", "m", -430, 6000, 0,
	       "above the sea"),
};
TARN_FIELDS(tarn_bed_water_fields, "water", water_rows);

static const struct tarn_field treatment_rows[] = {
	NUMBER(ammonia_mgl, "ammonia", "mg/L", 0, 1000, TARN_NAN,
	       "ammonia nitrogen wanted in the pond, at the most"),
	NUMBER(inlet_mgl, "inlet", "mg/L", 0, 1e5, TARN_NAN,
	       "concentration in, for one pass"),
	{ VALUES(target_mgl, "target", "mg/L", 0, 1e5, TARN_NAN,
		 "concentration wanted after one pass"), .was = "outlet" },
	NUMBER(background_mgl, "background", "mg/L", 0, 1e5,
	       TARN_NAN,
	       "below which no bed gets it; the rate's, or 0, if not given"),
	NUMBER(k_m_yr, "k", "m/yr", 1e-3, 1e6, TARN_NAN,
	       "areal removal rate at 20 deg C; or the name of a rate"),
	NUMBER(k_low_m_d, "k_low", "m/d", 0, 1e4, TARN_NAN,
	       "least loading at which k was measured"),
	NUMBER(k_high_m_d, "k_high", "m/d", 1e-6, 1e4, TARN_NAN,
	       "highest loading at which k was measured"),
	NUMBER(theta, "theta", "-", 0.8, 1.4, TARN_NAN,
	       "temperature factor of k per deg C"),
	{ VALUES(tanks_in_series, "tanks_in_series", "-", 1, HUGE_VAL, TARN_NAN,
		 "equal mixed tanks in series; infinity (plug flow) if not "
		 "given"), .was = "tanks" },
};
TARN_FIELDS(tarn_bed_treatment_fields, "treatment", treatment_rows);

const struct tarn_fields
*const tarn_bed_wish_sections[TARN_BED_WISH_SECTIONS] = {
	&tarn_bed_wish_fields, &tarn_bed_demand_fields, &tarn_bed_fish_fields,
	&tarn_bed_water_fields, &tarn_bed_treatment_fields,
};

struct tarn_bed_wish tarn_bed_wish_default(void)
{
	struct tarn_bed_wish wish = { 0 };

	for (size_t i = 0; i < TARN_BED_WISH_SECTIONS; i++)
		tarn_fields_default(tarn_bed_wish_sections[i], &wish);
	return wish;
}

/* SPDX-License-Identifier: MIT */
#include "judge.h"
#include "constants.h"

static int positive(double x)
{
	return x > 0 && isfinite(x);
}

double tarn_bed_loading(double flow_m3s, double area_m2)
{
	if (!positive(flow_m3s) || !positive(area_m2))
		return TARN_NAN;
	return flow_m3s * DAY / area_m2;
}

double tarn_bed_area(double flow_m3s, double loading_m_d)
{
	if (!positive(flow_m3s) || !positive(loading_m_d))
		return TARN_NAN;
	return flow_m3s * DAY / loading_m_d;
}

double tarn_bed_flow(double loading_m_d, double area_m2)
{
	if (!positive(loading_m_d) || !positive(area_m2))
		return TARN_NAN;
	return loading_m_d * area_m2 / DAY;
}

double tarn_turnover_per_h(double flow_m3s, double volume_m3)
{
	return flow_m3s >= 0 && volume_m3 > 0 ? flow_m3s * 3600 / volume_m3
					      : TARN_NAN;
}

double tarn_turnover_exposed(double turnovers)
{
	return turnovers >= 0 ? -expm1(-turnovers) : TARN_NAN;
}

double tarn_bed_residence(double flow_m3s, double area_m2, double depth_m,
			  double porosity)
{
	if (!positive(flow_m3s) || !positive(area_m2) || !positive(depth_m) ||
	    !(porosity > 0 && porosity <= 1))
		return TARN_NAN;
	return area_m2 * depth_m * porosity / flow_m3s;
}

static const char *const purposes[] = {
	"sewage", "aquaculture", "swimming", "ornamental", "roughing", NULL
};

#define RANGE struct tarn_loading_range
static const struct tarn_field range_rows[] = {
	TARN_OUT_STRING(RANGE, kind, "kind", "kind of bed"),
	TARN_OUT_CHOICE(RANGE, purpose, "purpose", purposes,
			"purpose of the bed"),
	TARN_OUT_NUMBER(RANGE, lo_m_d, "low", "m/d", "lowest loading"),
	TARN_OUT_NUMBER(RANGE, hi_m_d, "high", "m/d", "highest loading"),
	TARN_OUT_STRING(RANGE, removal, "removal", "removal seen there"),
	TARN_OUT_STRING(RANGE, source, "source", "source"),
	TARN_OUT_EVIDENCE(RANGE),
};

TARN_FIELDS(tarn_loading_range_fields, "range", range_rows);

#define KIND struct tarn_bed_kind
static const struct tarn_field kind_rows[] = {
	TARN_OUT_STRING(KIND, name, "name", "name in descriptions"),
	TARN_OUT_NUMBER(KIND, lo_m_d, "low", "m/d", "lowest loading"),
	TARN_OUT_NUMBER(KIND, hi_m_d, "high", "m/d", "highest loading"),
	TARN_OUT_STRING(KIND, meaning, "meaning", "meaning"),
	TARN_OUT_EVIDENCE(KIND),
};

TARN_FIELDS(tarn_bed_kind_fields, "kind", kind_rows);

static const char *const bases[] = { "surface", "volume", "turnover", NULL };

#define RULE struct tarn_bed_rule
static const struct tarn_field rule_rows[] = {
	TARN_OUT_CHOICE(RULE, basis, "basis", bases, "what is compared"),
	TARN_OUT_NUMBER(RULE, lo, "low", "-", "lowest"),
	TARN_OUT_NUMBER(RULE, hi, "high", "-", "highest"),
	TARN_OUT_STRING(RULE, text, "text", "the rule in words"),
	TARN_OUT_EVIDENCE(RULE),
};

TARN_FIELDS(tarn_bed_rule_fields, "rule", rule_rows);

#define PLACE struct tarn_loading_place
static const struct tarn_field place_rows[] = {
	TARN_OUT_NUMBER(PLACE, factor, "factor", "-",
			"loading over the nearest range"),
	TARN_OUT_NUMBER(PLACE, lo_m_d, "low", "m/d", "lowest of all ranges"),
	TARN_OUT_NUMBER(PLACE, hi_m_d, "high", "m/d", "highest of all ranges"),
	TARN_OUT_COUNT(PLACE, inside, "inside", "-", "ranges that hold it"),
};

TARN_FIELDS(tarn_loading_place_fields, "place", place_rows);

const char *tarn_bed_purpose_name(enum tarn_bed_purpose purpose)
{
	return (unsigned)purpose < TARN_PURPOSES ? purposes[purpose] : NULL;
}

#define SEEN TARN_EVIDENCE_SEEN
#define INPUTS TARN_EVIDENCE_INPUTS
#define SECOND_HAND TARN_EVIDENCE_SECOND_HAND
#define MEMORY TARN_EVIDENCE_MEMORY
#define PRACTICE TARN_EVIDENCE_PRACTICE

/* Slowest upper end first. */
static const struct tarn_loading_range ranges[] = {
	{ "free-water wetland, site-area rule 4.31e-3 ha per m3/d",
	  TARN_PURPOSE_SEWAGE, 0.023, 0.023, "7 d of residence, 0.3 m of water",
	  "Crites, Middlebrooks & Reed 2006, Natural Wastewater Treatment "
	  "Systems", INPUTS },
	{ "horizontal gravel bed after settling", TARN_PURPOSE_SEWAGE, 0, 0.04,
	  "",
	  "DWA-A 262", MEMORY },
	{ "gravel bed of a small household, 1 ft2 per gal/d",
	  TARN_PURPOSE_SEWAGE, 0.0407, 0.0407, "",
	  "Steiner & Watson 1993, TVA/WM-93/10", SECOND_HAND },
	{ "gravel bed, site-area rule 1.85e-3 ha per m3/d", TARN_PURPOSE_SEWAGE,
	  0.054, 0.054, "3 d of residence, under 80 kg BOD/ha/d",
	  "Crites, Middlebrooks & Reed 2006, Natural Wastewater Treatment "
	  "Systems", INPUTS },
	{ "free-water wetland", TARN_PURPOSE_SEWAGE, 0.015, 0.065, "",
	  "Kadlec & Knight 1996", MEMORY },
	{ "vertical sand and gravel bed after settling", TARN_PURPOSE_SEWAGE, 0,
	  0.08, "", "DWA-A 262", MEMORY },
	{ "free-water and gravel beds in series", TARN_PURPOSE_AQUACULTURE,
	  0.018, 0.135, "NH4-N 86-98 %, inorganic N 95-98 %, PO4 32-71 %",
	  "Lin et al. 2002, Aquaculture, abstract", SEEN },
	{ "free-water wetland, shrimp farm in recirculation",
	  TARN_PURPOSE_AQUACULTURE, 0.177, 0.177,
	  "P 31 %, solids 65 %, inorganic solids 76 %",
	  "Tilley et al. 2002, Aquacult. Eng. 26:81-109, abstract", INPUTS },
	{ "gravel bed", TARN_PURPOSE_SEWAGE, 0.02, 0.2, "",
	  "general sewage practice", MEMORY },
	{ "horizontal gravel bed polishing treated sewage", TARN_PURPOSE_SEWAGE,
	  0, 0.2, "", "UK tertiary practice", MEMORY },
	{ "gravel bed", TARN_PURPOSE_SEWAGE, 0.08, 0.3, "",
	  "Kadlec & Knight 1996", MEMORY },
	{ "vertical-flow wetland, fish pond in recirculation",
	  TARN_PURPOSE_AQUACULTURE, 0.313, 0.781,
	  "solids 81-83 %, BOD 61-77 %, NH4 52-68 %, P 73-89 %, nitrate -91 "
	  "to 40 %", "Trans. Chinese Soc. Agric. Eng. 2006 (1), abstract",
	  SEEN },
	{ "planted soil filter, 8 h residence, 1 m, run 16 to 24 h a day",
	  TARN_PURPOSE_SWIMMING, 0.76, 1.14, "",
	  "Gaertner & Florist 05/2006; porosity 0.38 is ours", INPUTS },
	{ "planted hydroponic beds", TARN_PURPOSE_AQUACULTURE, 1.28, 1.28,
	  "best of those tried, 15-42 g feed per m2 of plants a day",
	  "Endut et al. 2010, Bioresource Technol., abstract", SEEN },
	{ "horizontal sand bed 1-2 mm, trout farm", TARN_PURPOSE_AQUACULTURE,
	  1.03, 5.14, "solids 96-97 %, COD 64-74 %, P 49-69 %, N 21-42 %",
	  "Schulz, Gelbrecht & Rennert 2003, Aquaculture 217:207-221, "
	  "abstract", INPUTS },
	{ "horizontal root-zone bed, intensive trout farm",
	  TARN_PURPOSE_AQUACULTURE, 3.3, 14.5,
	  "2.1-4.5 g ammonia N and 30-98 g solids per m2 a day",
	  "Sindilariu, Brinker & Reiter 2009, abstract", SEEN },
	{ "gravel roughing filter, also upflow", TARN_PURPOSE_ROUGHING, 7.2, 36,
	  "", "Wegelin 1996, Surface Water Treatment by Roughing Filters, "
	  "SANDEC 2/96", MEMORY },
	{ "gravel bog of a garden pond 1 m deep, half a volume an hour through "
	  "10 to 15 % of its surface", TARN_PURPOSE_ORNAMENTAL, 80, 120,
	  "not measured", "common practice, our sum", PRACTICE },
	{ "upflow gravel filter after an anaerobic reactor",
	  TARN_PURPOSE_SEWAGE,
	  72, 170, "settleable solids over 70 %", "ABES 21st congress, II-048",
	  SEEN },
};

const struct tarn_loading_range *tarn_loading_ranges(size_t *count)
{
	*count = sizeof ranges / sizeof ranges[0];
	return ranges;
}

static const struct tarn_bed_kind kinds[] = {
	{ "slow_planted", 0.3, 1,
	  "slow planted filter or treatment wetland on pond water",
	  INPUTS },
	{ "aquaculture", 3, 15, "bed for the effluent of a fish farm",
	  INPUTS },
	{ "roughing", 7.2, 36, "gravel roughing, 0.3 to 1.5 m/h", MEMORY },
	{ "bog", 72, 120, "hobby gravel bog, 3 to 5 m/h, nobody measured",
	  PRACTICE },
};

const struct tarn_bed_kind *tarn_bed_kinds(size_t *count)
{
	*count = sizeof kinds / sizeof kinds[0];
	return kinds;
}

static const struct tarn_bed_rule rules[] = {
	{ TARN_RULE_SURFACE, 0.10, 1.00, "10 to 100 % of the surface: least "
	  "for few fish, half for swimming, most for a heavy load", PRACTICE },
	{ TARN_RULE_VOLUME, 0.10, 0.30, "10 to 30 % of the volume: most for "
	  "koi", PRACTICE },
	{ TARN_RULE_TURNOVER, 0.5, 0.5, "once in two hours for few fish",
	  PRACTICE },
	{ TARN_RULE_TURNOVER, 1, 3, "one to three times an hour for koi",
	  PRACTICE },
};

const struct tarn_bed_rule *tarn_bed_rules(size_t *count)
{
	*count = sizeof rules / sizeof rules[0];
	return rules;
}

double tarn_loading_factor(double loading_m_d, double lo_m_d, double hi_m_d)
{
	if (!positive(loading_m_d) || !positive(hi_m_d))
		return TARN_NAN;
	if (loading_m_d > hi_m_d)
		return loading_m_d / hi_m_d;
	if (loading_m_d < lo_m_d)
		return loading_m_d / lo_m_d;
	return 1;
}

enum tarn_status tarn_loading_place(double loading_m_d,
				    enum tarn_bed_purpose purpose,
				    struct tarn_loading_place *out,
				    struct tarn_error *err)
{
	struct tarn_loading_place p = { NULL, 0, TARN_NAN, HUGE_VAL, 0 };
	double nearest = HUGE_VAL;

	if (!positive(loading_m_d))
		return tarn_fail(err, TARN_EARG, "loading", "must be above 0 "
				 "m/d, got %g", loading_m_d);
	if ((unsigned)purpose > TARN_PURPOSES)
		return tarn_fail(err, TARN_EARG, "purpose", "is not one of the "
				 "purposes of a bed");
	for (size_t i = 0; i < sizeof ranges / sizeof ranges[0]; i++) {
		const struct tarn_loading_range *r = &ranges[i];
		double factor, distance;

		if (purpose != TARN_PURPOSES && r->purpose != purpose)
			continue;
		factor = tarn_loading_factor(loading_m_d, r->lo_m_d,
					     r->hi_m_d);
		distance = fabs(log(factor));
		p.inside += distance == 0;
		p.lo_m_d = fmin(p.lo_m_d, r->lo_m_d);
		p.hi_m_d = fmax(p.hi_m_d, r->hi_m_d);
		if (distance < nearest) {
			nearest = distance;
			p.nearest = r;
			p.factor = factor;
		}
	}
	*out = p;
	return TARN_OK;
}

const struct tarn_loading_range *tn_bed_nearest_range(double loading_m_d)
{
	static const enum tarn_bed_purpose ponds[] = {
		TARN_PURPOSE_AQUACULTURE, TARN_PURPOSE_SWIMMING,
		TARN_PURPOSE_ORNAMENTAL,
	};
	const struct tarn_loading_range *best = &ranges[0];
	double least = HUGE_VAL;

	for (size_t i = 0; i < sizeof ponds / sizeof ponds[0]; i++) {
		struct tarn_loading_place p;

		if (tarn_loading_place(loading_m_d, ponds[i], &p, NULL) ==
			    TARN_OK &&
		    fabs(log(p.factor)) < least) {
			least = fabs(log(p.factor));
			best = p.nearest;
		}
	}
	return best;
}

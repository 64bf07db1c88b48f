/* SPDX-License-Identifier: MIT */
#include "tarn/bed.h"

#define REED "Reed, Crites & Middlebrooks 1995; US EPA 832-R-93-008 (1993)"
#define REGION6 "the same; US EPA Region 6, Addendum 1 (Aug 1993) prints " \
		"24,608 ft/d = 7,500 m/d"
#define MEMORY TARN_EVIDENCE_MEMORY
#define SEEN TARN_EVIDENCE_SEEN

#define MEDIUM struct tarn_medium
static const struct tarn_field medium_rows[] = {
	TARN_OUT_STRING(MEDIUM, name, "name", "kind of stone"),
	TARN_OUT_NUMBER(MEDIUM, d10_m, "d10", "m",
			"size that a tenth by weight is finer than"),
	TARN_OUT_NUMBER(MEDIUM, porosity_lo, "porosity_low", "-",
			"lowest porosity"),
	TARN_OUT_NUMBER(MEDIUM, porosity_hi, "porosity_high", "-",
			"highest porosity"),
	TARN_OUT_NUMBER(MEDIUM, low_m_d, "conductivity_low", "m/d",
			"lowest conductivity"),
	TARN_OUT_NUMBER(MEDIUM, high_m_d, "conductivity_high", "m/d",
			"highest conductivity"),
	TARN_OUT_NUMBER(MEDIUM, design_m_d, "conductivity_design", "m/d",
			"conductivity to design with"),
	TARN_OUT_STRING(MEDIUM, source, "source", "source"),
	TARN_OUT_EVIDENCE(MEDIUM),
};

TARN_FIELDS(tarn_medium_fields, "medium", medium_rows);

static const char *const bases[] = {
	"section_bod", "area_bod", "area_solids", NULL
};

#define LIMIT struct tarn_limit
static const struct tarn_field limit_rows[] = {
	TARN_OUT_CHOICE(LIMIT, basis, "basis", bases,
			"load and the area it is on"),
	TARN_OUT_NUMBER(LIMIT, value, "value", "g/m2/d", "limit"),
	TARN_OUT_STRING(LIMIT, meaning, "meaning", "where it holds"),
	TARN_OUT_STRING(LIMIT, source, "source", "source"),
	TARN_OUT_EVIDENCE(LIMIT),
};

TARN_FIELDS(tarn_limit_fields, "limit", limit_rows);

/* Conductivities in use lie far under those of clean, even stone. */
static const struct tarn_medium media[] = {
	{ "coarse sand", 0.002, 0.28, 0.32, 100, 1000, 1000, REED, MEMORY },
	{ "gravelly sand", 0.008, 0.30, 0.35, 500, 5000, 5000, REED, MEMORY },
	{ "fine gravel", 0.016, 0.35, 0.38, 1000, 10000, 7500, REGION6,
	  MEMORY },
	{ "medium gravel", 0.032, 0.36, 0.40, 10000, 50000, 10000, REED,
	  MEMORY },
	{ "coarse rock", 0.128, 0.38, 0.45, 50000, 250000, 100000, REED,
	  MEMORY },
};

const struct tarn_medium *tarn_media(size_t *count)
{
	*count = sizeof media / sizeof media[0];
	return media;
}

static const struct tarn_limit limits[] = {
	{ TARN_LIMIT_SECTION_BOD, 250, "horizontal gravel bed, inlet face",
	  "Wallace & Knight 2006", MEMORY },
	{ TARN_LIMIT_SECTION_BOD, 244, "0.05 lb/ft2/d", "TVA 1993", MEMORY },
	{ TARN_LIMIT_AREA_BOD, 8, "gravel bed, 80 kg/ha/d (72 lb/ac/d)",
	  "Crites, Middlebrooks & Reed 2006", SEEN },
	{ TARN_LIMIT_AREA_BOD, 6, "for 30 mg/L at the outlet",
	  "US EPA/625/R-99/010 (2000)", MEMORY },
	{ TARN_LIMIT_AREA_BOD, 1.6, "for 20 mg/L at the outlet",
	  "US EPA/625/R-99/010 (2000)", MEMORY },
	{ TARN_LIMIT_AREA_SOLIDS, 20, "for 30 mg/L at the outlet",
	  "US EPA/625/R-99/010 (2000)", MEMORY },
};

const struct tarn_limit *tarn_limits(size_t *count)
{
	*count = sizeof limits / sizeof limits[0];
	return limits;
}

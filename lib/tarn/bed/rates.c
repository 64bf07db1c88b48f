/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "tarn/bed.h"
#include "constants.h"

#define MEMORY TARN_EVIDENCE_MEMORY
#define SEEN TARN_EVIDENCE_SEEN
#define INPUTS TARN_EVIDENCE_INPUTS
#define NONE TARN_NAN

/* Loadings of the beds behind each set, m/d; all from memory. */
#define FWS_1996 0.015, 0.065
#define SSF_1996 0.08, 0.3
#define HF_2009 0.02, 0.2
#define FWS_2009 0.015, 0.065

#define FWS "free-water wetland, sewage"
#define SSF "gravel bed, sewage"
#define HF "horizontal gravel bed, sewage"
#define KK "Kadlec & Knight 1996, table 21-1"
#define KW "Kadlec & Wallace 2009 / Dotro et al. 2017, median"
#define RCM "Reed, Crites & Middlebrooks 1995"
#define LEVERENZ "Leverenz et al. 2010, Ecol. Eng. 36:1544-1551, abstract"

#define RATE struct tarn_rate
static const struct tarn_field rate_rows[] = {
	TARN_OUT_STRING(RATE, name, "name", "name to ask for it by"),
	TARN_OUT_STRING(RATE, bed, "bed", "kind of bed and water"),
	TARN_OUT_STRING(RATE, parameter, "parameter", "what is removed"),
	TARN_OUT_NUMBER(RATE, k_m_yr, "k_m_yr", "m/yr",
			"areal rate at 20 deg C"),
	TARN_OUT_NUMBER(RATE, k_per_day, "k_per_day", "1/d",
			"volumetric rate at 20 deg C"),
	TARN_OUT_NUMBER(RATE, sd_m_yr, "sd_m_yr", "m/yr",
			"standard deviation between beds"),
	TARN_OUT_NUMBER(RATE, tanks_in_series, "tanks_in_series", "-",
			"equal mixed tanks in series"),
	TARN_OUT_NUMBER(RATE, theta, "theta", "-",
			"temperature factor per deg C"),
	TARN_OUT_NUMBER(RATE, background_mgl, "background", "mg/L",
			"background, C*"),
	TARN_OUT_NUMBER(RATE, background_slope, "background_slope", "-",
			"of it with the inlet's concentration"),
	TARN_OUT_NUMBER(RATE, low_m_d, "k_low", "m/d",
			"least loading of those beds"),
	TARN_OUT_NUMBER(RATE, high_m_d, "k_high", "m/d",
			"highest loading of those beds"),
	TARN_OUT_STRING(RATE, source, "source", "source"),
	TARN_OUT_EVIDENCE(RATE),
};

TARN_FIELDS(tarn_rate_fields, "rate", rate_rows);

#define TRIAL struct tarn_trial
static const struct tarn_field trial_rows[] = {
	TARN_OUT_STRING(TRIAL, system, "system", "kind of bed"),
	TARN_OUT_STRING(TRIAL, parameter, "parameter", "what was removed"),
	TARN_OUT_NUMBER(TRIAL, loading_m_d, "loading", "m/d",
			"surface loading"),
	TARN_OUT_NUMBER(TRIAL, removal, "removal", "-", "part removed"),
	TARN_OUT_STRING(TRIAL, source, "source", "source"),
	TARN_OUT_EVIDENCE(TRIAL),
};

TARN_FIELDS(tarn_trial_fields, "trial", trial_rows);

/* Plug flow of 1996: areal, tanks infinite. */
#define OLD(name, bed, what, k, theta, base, slope, range)                    \
	{ name, bed, what, k, NONE, NONE, HUGE_VAL, theta, base, slope,      \
	  range, KK, MEMORY }
/* Tanks in series of 2009. */
#define NEW(name, bed, what, k, tanks, theta, base, range)          \
	{ name, bed, what, k, NONE, NONE, tanks, theta, base, 0, range, KW,   \
	  MEMORY }
#define PER_DAY(name, bed, what, k, theta, source, evidence)                  \
	{ name, bed, what, NONE, k, NONE, HUGE_VAL, theta, 0, 0, NONE, NONE,  \
	  source, evidence }
#define SITE(name, bed, what, k, sd, theta, source)                           \
	{ name, bed, what, k, NONE, sd, HUGE_VAL, theta, 0, 0, NONE, NONE,    \
	  source, SEEN }

/* A background that we do not recall is NONE, not 0. */
static const struct tarn_rate rates[] = {
	OLD("fws-bod-1996", FWS, "BOD", 34, 1.00, 3.5, 0.053, FWS_1996),
	OLD("fws-solids-1996", FWS, "solids", 1000, 1.00, 5.1, 0.16, FWS_1996),
	OLD("fws-organic-nitrogen-1996", FWS, "organic nitrogen", 17, 1.05,
	    1.5, 0, FWS_1996),
	OLD("fws-ammonia-1996", FWS, "ammonia", 18, 1.04, 0, 0, FWS_1996),
	OLD("fws-nitrate-1996", FWS, "nitrate", 35, 1.09, 0, 0, FWS_1996),
	OLD("fws-nitrogen-1996", FWS, "total nitrogen", 22, 1.05, 1.5, 0,
	    FWS_1996),
	OLD("fws-phosphorus-1996", FWS, "phosphorus", 12, 1.00, 0.02, 0,
	    FWS_1996),
	OLD("ssf-bod-1996", SSF, "BOD", 180, 1.00, 3.5, 0.053, SSF_1996),
	OLD("ssf-solids-1996", SSF, "solids", 3000, 1.00, 7.8, 0.063,
	    SSF_1996),
	OLD("ssf-organic-nitrogen-1996", SSF, "organic nitrogen", 35, 1.05,
	    1.5, 0, SSF_1996),
	OLD("ssf-ammonia-1996", SSF, "ammonia", 34, 1.04, 0, 0, SSF_1996),
	OLD("ssf-nitrate-1996", SSF, "nitrate", 50, 1.09, 0, 0, SSF_1996),
	OLD("ssf-nitrogen-1996", SSF, "total nitrogen", 27, 1.05, 1.5, 0,
	    SSF_1996),
	OLD("ssf-phosphorus-1996", SSF, "phosphorus", 12, 1.00, 0.02, 0,
	    SSF_1996),

	NEW("hf-bod-2009", HF, "BOD", 25, 3, 0.981, 10, HF_2009),
	NEW("hf-bod-tertiary-2009", HF " treated to under 30 mg/L", "BOD", 86,
	    3, 0.981, 1, HF_2009),
	NEW("hf-bod-weak-2009", HF " of 30 to 100 mg/L", "BOD", 37, 3, 0.981,
	    5, HF_2009),
	NEW("hf-bod-strong-2009", HF " over 200 mg/L", "BOD", 66, 3, 0.981, 15,
	    HF_2009),
	NEW("hf-nitrogen-2009", HF, "total nitrogen", 8.4, 6, 1.005,
	    NONE, HF_2009),
	NEW("hf-ammonia-2009", HF, "ammonia", 11.4, 6, 1.014, 0, HF_2009),
	NEW("hf-nitrate-2009", HF, "nitrate", 41.8, 8, 1.102, 0, HF_2009),
	NEW("fws-bod-2009", FWS, "BOD", 33, 1, 0.985, NONE, FWS_2009),
	NEW("fws-nitrogen-2009", FWS, "total nitrogen", 12.6, 3, 1.056,
	    NONE, FWS_2009),
	NEW("fws-ammonia-2009", FWS, "ammonia", 14.7, 3, 1.014, 0, FWS_2009),
	NEW("fws-nitrate-2009", FWS, "nitrate", 26.5, 3, 1.102, 0, FWS_2009),
	NEW("fws-phosphorus-2009", FWS, "phosphorus", 10.0, 3, 1.00, NONE,
	    FWS_2009),

	SITE("beijing-nitrate-2016", "horizontal gravel beds, Beijing",
	     "nitrate", 27, 26, 1.004, "Water 2016 8(11):514, abstract"),
	SITE("beijing-ammonia-2016", "horizontal gravel beds, Beijing",
	     "ammonia", 14, 10, 0.960, "Water 2016 8(11):514, abstract"),
	SITE("mesocosm-nitrate-2017a", "planted mesocosm", "nitrate",
	     0.049 * YEAR, NONE, 1.15, "Water 2017 9(7):517, 4.9 cm/d"),
	SITE("mesocosm-nitrate-2017b", "planted mesocosm", "nitrate",
	     0.041 * YEAR, NONE, 1.09, "Water 2017 9(7):517, 4.1 cm/d"),

	PER_DAY("reed-ssf-bod", SSF, "BOD", 1.104, 1.06, RCM, MEMORY),
	PER_DAY("reed-fws-bod", FWS, "BOD", 0.678, 1.06, RCM, MEMORY),
	PER_DAY("reed-fws-ammonia", FWS " above 10 deg C", "ammonia", 0.2187,
		1.048, RCM, MEMORY),
	PER_DAY("reed-ssf-ammonia", SSF " with roots to the bottom, above 10 "
		"deg C", "ammonia", 0.41074, 1.048, RCM, MEMORY),
	PER_DAY("reed-nitrate", SSF " or free water", "nitrate", 1.000, 1.15,
		RCM, MEMORY),
	PER_DAY("woodchip-nitrate-2010a", "woodchip bed", "nitrate", 1.41,
		1.10, LEVERENZ, SEEN),
	PER_DAY("woodchip-nitrate-2010b", "woodchip bed", "nitrate", 1.30,
		1.17, LEVERENZ, SEEN),
};

const struct tarn_rate *tarn_rates(size_t *count)
{
	*count = sizeof rates / sizeof rates[0];
	return rates;
}

const struct tarn_rate *tarn_rate_find(const char *name)
{
	for (size_t i = 0; i < sizeof rates / sizeof rates[0]; i++)
		if (strcmp(rates[i].name, name) == 0)
			return &rates[i];
	return NULL;
}

const char *tarn_rate_name(size_t i)
{
	return i < sizeof rates / sizeof rates[0] ? rates[i].name : NULL;
}

void tarn_treatment_set_rate(struct tarn_treatment *t,
			     const struct tarn_rate *rate)
{
	t->k_m_yr = rate->k_m_yr;
	t->k_per_day = rate->k_per_day;
	t->tanks_in_series = rate->tanks_in_series;
	t->theta = rate->theta;
	if (!isnan(rate->background_mgl))
		t->background_mgl = rate->background_mgl;
	if (rate->background_slope > 0)
		t->background_mgl += rate->background_slope * t->inlet_mgl;
	t->k_low_m_d = rate->low_m_d;
	t->k_high_m_d = rate->high_m_d;
}

#define TROUT_2008 "horizontal root-zone bed, trout farm"
#define SINDILARIU "Sindilariu, Wolter & Reiter 2008, Aquaculture, abstract"
#define VERTICAL "vertical-flow wetland, fish pond in recirculation"
#define CSAE "Trans. Chinese Soc. Agric. Eng. 2006 (1), abstract"
#define SAND "horizontal sand bed, trout farm"
#define SCHULZ "Schulz, Gelbrecht & Rennert 2003, Aquaculture 217:207, abstract"

/* The best removal goes with the least loading. */
static const struct tarn_trial trials[] = {
	{ VERTICAL, "ammonia", 0.313, 0.678, CSAE, INPUTS },
	{ VERTICAL, "ammonia", 0.781, 0.515, CSAE, INPUTS },
	{ VERTICAL, "phosphorus", 0.313, 0.89, CSAE, INPUTS },
	{ VERTICAL, "phosphorus", 0.781, 0.73, CSAE, INPUTS },
	{ VERTICAL, "BOD", 0.313, 0.77, CSAE, INPUTS },
	{ VERTICAL, "BOD", 0.781, 0.61, CSAE, INPUTS },
	{ VERTICAL, "solids", 0.313, 0.829, CSAE, INPUTS },
	{ VERTICAL, "solids", 0.781, 0.805, CSAE, INPUTS },
	{ SAND, "phosphorus", 1.0286, 0.685, SCHULZ, INPUTS },
	{ SAND, "phosphorus", 5.143, 0.49, SCHULZ, INPUTS },
	{ SAND, "solids", 1.0286, 0.97, SCHULZ, INPUTS },
	{ SAND, "solids", 5.143, 0.96, SCHULZ, INPUTS },
	{ TROUT_2008, "ammonia", 3.29, 0.878, SINDILARIU, INPUTS },
	{ TROUT_2008, "ammonia", 14.28, 0.612, SINDILARIU, INPUTS },
};

const struct tarn_trial *tarn_trials(size_t *count)
{
	*count = sizeof trials / sizeof trials[0];
	return trials;
}

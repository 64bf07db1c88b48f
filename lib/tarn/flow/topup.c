/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define IN struct tarn_topup
static const struct tarn_field rows[] = {
	TARN_IN_REQUIRED(IN, volume_m3, "volume", "m3", 0, 1e6,
			 "water of one top-up"),
	TARN_IN_NUMBER(IN, pond_m3, "pond", "m3", 1e-6, 1e7, TARN_NAN,
		       "water in the full pond"),
	TARN_IN_NUMBER(IN, kv, "kv", "m3/h", 1e-4, 1e4, TARN_NAN,
		       "valve: flow at 1 bar"),
	TARN_IN_NUMBER(IN, cv, "cv", "gpm", 1e-4, 1e4, TARN_NAN,
		       "valve: US gal/min at 1 psi"),
	TARN_IN_NUMBER(IN, flow_m3s, "flow", "m3/s", 1e-9, 100, TARN_NAN,
		       "flow of the supply"),
	TARN_IN_NUMBER(IN, pressure_kpa, "pressure", "kPa", 0, 2000, TARN_NAN,
		       "at the valve while it runs"),
	TARN_IN_VALUE(IN, events_per_week, "events_per_week", "-", 0, 1000, 1,
		      "top-ups a week"),
	TARN_IN_NUMBER(IN, chlorine_mg_l, "chlorine", "mg/L", 0, 20, TARN_NAN,
		       "total chlorine of the tap water, as Cl2"),
	TARN_IN_NUMBER(IN, chloramine_mg_l, "chloramine", "mg/L", 0, 20,
		       TARN_NAN, "part of it that is chloramine, as Cl2"),
	TARN_IN_NUMBER(IN, neutraliser, "neutraliser", "-", 0, 20, TARN_NAN,
		       "mg per mg of chlorine"),
	TARN_IN_NUMBER(IN, opening_m, "opening", "m", 1e-3, 1, TARN_NAN,
		       "mouth of the supply"),
};
TARN_FIELDS(tarn_topup_fields, "topup", rows);
TARN_DEFAULT(IN, tarn_topup_default, tarn_topup_fields)

#define OUT struct tarn_topup_flow
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, flow_m3s, "flow", "m3/s", "flow of the supply"),
	TARN_OUT_NUMBER(OUT, fill_time_s, "fill_time", "s",
			"of one top-up, valve open"),
	TARN_OUT_NUMBER(OUT, share, "share", "-",
			"tap water in the pond after one"),
	TARN_OUT_NUMBER(OUT, share_week, "share_week", "-",
			"after a week of them"),
	TARN_OUT_NUMBER(OUT, salts_week, "salts_week", "-",
			"salts that a week adds, of a pond full of tap water"),
	TARN_OUT_NUMBER(OUT, chlorine_mixed_mg_l, "chlorine_mixed", "mg/L",
			"in the pond, before it reacts"),
	TARN_OUT_NUMBER(OUT, neutraliser_g, "neutraliser", "g",
			"for one top-up"),
	TARN_OUT_NUMBER(OUT, neutraliser_pond_g, "neutraliser_pond", "g",
			"for the whole pond's volume"),
	TARN_OUT_NUMBER(OUT, nitrogen_g, "nitrogen", "g",
			"ammonia N that one leaves"),
	TARN_OUT_NUMBER(OUT, air_gap_m, "air_gap", "m",
			"least, above the flood rim"),
};
TARN_FIELDS(tarn_topup_flow_fields, "topup", result_rows);

double tn_valve_m3s(double kv, double pressure_kpa)
{
	if (!(kv >= 0 && pressure_kpa >= 0))
		return TARN_NAN;
	return kv / 3600 * sqrt(pressure_kpa / 100);
}

double tn_kv_from_cv(double cv)
{
	const double gpm_m3h = 3.785411784e-3 * 60;
	const double psi_kpa = 6.894757293168361;

	return cv >= 0 ? cv * gpm_m3h * sqrt(100 / psi_kpa) : TARN_NAN;
}

double tn_tap_share(double volume_m3, double pond_m3, double events)
{
	if (!(volume_m3 >= 0 && volume_m3 <= pond_m3 && pond_m3 > 0 &&
	      events >= 0))
		return TARN_NAN;
	return 1 - pow(1 - volume_m3 / pond_m3, events);
}

double tn_neutraliser_g(double ratio, double chlorine_mg_l, double volume_m3)
{
	if (!(ratio >= 0 && chlorine_mg_l >= 0 && volume_m3 >= 0))
		return TARN_NAN;
	return ratio * chlorine_mg_l * volume_m3;
}

double tn_chloramine_nitrogen_g(double chloramine_mg_l, double volume_m3)
{
	const double nitrogen = 14.007, chlorine = 2 * 35.453;	/* g/mol */

	if (!(chloramine_mg_l >= 0 && volume_m3 >= 0))
		return TARN_NAN;
	return nitrogen / chlorine * chloramine_mg_l * volume_m3;
}

double tarn_air_gap_m(double opening_m)
{
	return opening_m > 0 ? fmax(2 * opening_m, 0.0254) : TARN_NAN;
}

static enum tarn_status check(const struct tarn_topup *t,
			      struct tarn_error *err)
{
	const double supply[] = { t->kv, t->cv, t->flow_m3s };

	if (tarn_fields_check(&tarn_topup_fields, t, err) != TARN_OK)
		return TARN_EARG;
	if (tn_flow_given(supply, 3) > 1)
		return tn_flow_need(supply, 3, 1, "topup", "kv, cv and flow",
				    err);
	if (isnan(t->pressure_kpa) && (!isnan(t->kv) || !isnan(t->cv)))
		return tarn_fail(err, TARN_EARG, "topup.pressure",
				 "is missing: the valve's flow follows from "
				 "it");
	if (t->volume_m3 > t->pond_m3)
		return tarn_fail(err, TARN_EARG, "topup.volume", "must not be "
				 "more than the pond holds, got %g and %g",
				 t->volume_m3, t->pond_m3);
	if (t->chloramine_mg_l > t->chlorine_mg_l)
		return tarn_fail(err, TARN_EARG, "topup.chloramine", "is part "
				 "of chlorine and cannot be more, got %g and "
				 "%g", t->chloramine_mg_l, t->chlorine_mg_l);
	return TARN_OK;
}

enum tarn_status tarn_topup_solve(const struct tarn_topup *topup,
				  struct tarn_topup_flow *out,
				  struct tarn_error *err)
{
	const struct tarn_topup *t = topup;
	double kv = isnan(t->cv) ? t->kv : tn_kv_from_cv(t->cv);

	if (check(t, err) != TARN_OK)
		return TARN_EARG;
	out->flow_m3s = isnan(t->flow_m3s)
		? tn_valve_m3s(kv, t->pressure_kpa) : t->flow_m3s;
	out->fill_time_s = out->flow_m3s > 0 ? t->volume_m3 / out->flow_m3s
					     : TARN_NAN;
	out->share = tn_tap_share(t->volume_m3, t->pond_m3, 1);
	out->share_week = tn_tap_share(t->volume_m3, t->pond_m3,
				       t->events_per_week);
	out->salts_week = t->events_per_week * out->share;
	out->chlorine_mixed_mg_l = out->share * t->chlorine_mg_l;
	out->neutraliser_g = tn_neutraliser_g(t->neutraliser,
					      t->chlorine_mg_l,
					      t->volume_m3);
	out->neutraliser_pond_g = tn_neutraliser_g(t->neutraliser,
						   t->chlorine_mg_l,
						   t->pond_m3);
	out->nitrogen_g = tn_chloramine_nitrogen_g(t->chloramine_mg_l,
						   t->volume_m3);
	out->air_gap_m = tarn_air_gap_m(t->opening_m);
	return TARN_OK;
}

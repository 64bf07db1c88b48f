/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define NUMBER(member, name, lo, hi, unit, meaning) \
	FLOW_NUMBER(tarn_topup, member, name, lo, hi, unit, meaning)
#define NEEDED(member, name, lo, hi, unit, meaning) \
	FLOW_NEEDED(tarn_topup, member, name, lo, hi, unit, meaning)

static const struct tarn_field rows[] = {
	NEEDED(volume_m3, "volume", 0, 1e6, "m3", "water of one top-up"),
	NUMBER(pond_m3, "pond", 1e-6, 1e7, "m3", "water in the full pond"),
	NUMBER(kv, "kv", 1e-4, 1e4, "m3/h", "valve: flow at 1 bar"),
	NUMBER(cv, "cv", 1e-4, 1e4, "gpm", "valve: US gal/min at 1 psi"),
	NUMBER(flow_m3s, "flow", 1e-9, 100, "m3/s", "flow of the supply"),
	NUMBER(pressure_kpa, "pressure", 0, 2000, "kPa",
	       "at the valve while it runs"),
	NEEDED(events_per_week, "events_per_week", 0, 1000, "-",
	       "top-ups a week"),
	NUMBER(chlorine_mg_l, "chlorine", 0, 20, "mg/L",
	       "total chlorine of the tap water, as Cl2"),
	NUMBER(chloramine_mg_l, "chloramine", 0, 20, "mg/L",
	       "part of it that is chloramine, as Cl2"),
	NUMBER(neutraliser, "neutraliser", 0, 20, "-",
	       "mg per mg of chlorine"),
	NUMBER(opening_m, "opening", 1e-3, 1, "m", "mouth of the supply"),
};
FLOW_FIELDS(tarn_topup_fields, "topup", rows);

#define RESULT(member, name, unit, meaning) \
	FLOW_RESULT(tarn_topup_flow, member, name, unit, meaning)

static const struct tarn_field result_rows[] = {
	RESULT(flow_m3s, "flow", "m3/s", "flow of the supply"),
	RESULT(fill_time_s, "fill_time", "s", "of one top-up, valve open"),
	RESULT(share, "share", "-", "tap water in the pond after one"),
	RESULT(share_week, "share_week", "-", "after a week of them"),
	RESULT(salts_week, "salts_week", "-",
	       "salts that a week adds, of a pond full of tap water"),
	RESULT(chlorine_mixed_mg_l, "chlorine_mixed", "mg/L",
	       "in the pond, before it reacts"),
	RESULT(neutraliser_g, "neutraliser", "g", "for one top-up"),
	RESULT(neutraliser_pond_g, "neutraliser_pond", "g",
	       "for the whole pond's volume"),
	RESULT(nitrogen_g, "nitrogen", "g", "ammonia N that one leaves"),
	RESULT(air_gap_m, "air_gap", "m", "least, above the flood rim"),
};
FLOW_FIELDS(tarn_topup_flow_fields, "topup", result_rows);

struct tarn_topup tarn_topup_default(void)
{
	const double none = TARN_NAN;

	return (struct tarn_topup){
		.volume_m3 = none, .pond_m3 = none, .kv = none, .cv = none,
		.flow_m3s = none, .pressure_kpa = none, .events_per_week = 1,
		.chlorine_mg_l = none, .chloramine_mg_l = none,
		.neutraliser = none, .opening_m = none,
	};
}

double tarn_valve_m3s(double kv, double pressure_kpa)
{
	if (!(kv >= 0 && pressure_kpa >= 0))
		return TARN_NAN;
	return kv / 3600 * sqrt(pressure_kpa / 100);
}

double tarn_kv_from_cv(double cv)
{
	const double gpm_m3h = 3.785411784e-3 * 60;
	const double psi_kpa = 6.894757293168361;

	return cv >= 0 ? cv * gpm_m3h * sqrt(100 / psi_kpa) : TARN_NAN;
}

double tarn_tap_share(double volume_m3, double pond_m3, double events)
{
	if (!(volume_m3 >= 0 && volume_m3 <= pond_m3 && pond_m3 > 0 &&
	      events >= 0))
		return TARN_NAN;
	return 1 - pow(1 - volume_m3 / pond_m3, events);
}

double tarn_neutraliser_g(double ratio, double chlorine_mg_l, double volume_m3)
{
	if (!(ratio >= 0 && chlorine_mg_l >= 0 && volume_m3 >= 0))
		return TARN_NAN;
	return ratio * chlorine_mg_l * volume_m3;
}

double tarn_chloramine_nitrogen_g(double chloramine_mg_l, double volume_m3)
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
	if (flow_given(supply, 3) > 1)
		return flow_need(supply, 3, 1, "topup", "kv, cv and flow",
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
	double kv = isnan(t->cv) ? t->kv : tarn_kv_from_cv(t->cv);

	if (check(t, err) != TARN_OK)
		return TARN_EARG;
	out->flow_m3s = isnan(t->flow_m3s)
		? tarn_valve_m3s(kv, t->pressure_kpa) : t->flow_m3s;
	out->fill_time_s = out->flow_m3s > 0 ? t->volume_m3 / out->flow_m3s
					     : TARN_NAN;
	out->share = tarn_tap_share(t->volume_m3, t->pond_m3, 1);
	out->share_week = tarn_tap_share(t->volume_m3, t->pond_m3,
					 t->events_per_week);
	out->salts_week = t->events_per_week * out->share;
	out->chlorine_mixed_mg_l = out->share * t->chlorine_mg_l;
	out->neutraliser_g = tarn_neutraliser_g(t->neutraliser,
						t->chlorine_mg_l,
						t->volume_m3);
	out->neutraliser_pond_g = tarn_neutraliser_g(t->neutraliser,
						     t->chlorine_mg_l,
						     t->pond_m3);
	out->nitrogen_g = tarn_chloramine_nitrogen_g(t->chloramine_mg_l,
						     t->volume_m3);
	out->air_gap_m = tarn_air_gap_m(t->opening_m);
	return TARN_OK;
}

/* SPDX-License-Identifier: MIT */
#include <stddef.h>

#include "rows.h"
#include "constants.h"

#define KELVIN 273.15

static int water_temp(double temp_c)
{
	return temp_c >= 0 && temp_c <= 40;
}

double tarn_ammonia_pka(double temp_c)
{
	return water_temp(temp_c) ? 0.09018 + 2729.92 / (temp_c + KELVIN)
				  : TARN_NAN;
}

double tarn_unionised(double ph, double temp_c)
{
	if (!(ph >= 4 && ph <= 12))
		return TARN_NAN;
	return 1 / (1 + pow(10, tarn_ammonia_pka(temp_c) - ph));
}

double tarn_total_ammonia(double unionised, double ph, double temp_c)
{
	return unionised >= 0 ? unionised / tarn_unionised(ph, temp_c)
			      : TARN_NAN;
}

/* Pressure of the standard atmosphere, in atm (ICAO 1993, Doc 7488). */
static double standard_pressure(double elevation_m)
{
	return pow(1 - 2.25577e-5 * elevation_m, 5.25588);
}

double tarn_oxygen_saturation(double temp_c, double elevation_m)
{
	double k = temp_c + KELVIN, p, at_1_atm, vapour, theta;

	if (!water_temp(temp_c) ||
	    !(elevation_m >= -430 && elevation_m <= 6000))
		return TARN_NAN;
	at_1_atm = exp(-139.34411 + 1.575701e5 / k - 6.642308e7 / (k * k) +
		       1.243800e10 / (k * k * k) -
		       8.621949e11 / (k * k * k * k));
	p = standard_pressure(elevation_m);
	vapour = exp(11.8571 - 3840.70 / k - 216961 / (k * k));
	theta = 0.000975 - 1.426e-5 * temp_c + 6.436e-8 * temp_c * temp_c;
	return at_1_atm * (p - vapour) / (1 - vapour) * (1 - theta * p) /
	       (1 - theta);
}

#define IN struct tarn_oxygen
static const struct tarn_field rows[] = {
	TARN_IN_REQUIRED(IN, flow_m3s, "flow", "m3/s", 1e-8, 10,
			 "flow through the bed"),
	TARN_IN_NUMBER(IN, inlet_mgl, "inlet", "mg/L", 0, 30, TARN_NAN,
		       "oxygen at the inlet"),
	TARN_IN_VALUE(IN, assumed, "assumed", "-", 0, 1.5, 0.8,
		      "part of saturation at the inlet where it is not given"),
	TARN_IN_VALUE(IN, temp_c, "temp", "deg C", 0, 40, 20,
		      "temperature of the water"),
	TARN_IN_VALUE(IN, elevation_m, "elevation", "m", -430, 6000, 0,
		      "height over the sea"),
	TARN_IN_VALUE(IN, ammonia_g, "ammonia_g", "g/d", 0, 1e9, 0,
		      "ammonia nitrogen nitrified in the bed"),
	TARN_IN_VALUE(IN, bod_g, "bod_g", "g/d", 0, 1e9, 0,
		      "BOD burnt in the bed"),
	TARN_IN_VALUE(IN, reaeration_g, "reaeration_g", "g/d", 0, 1e9, 0,
		      "oxygen from air and roots"),
	TARN_IN_VALUE(IN, keep_mgl, "keep", "mg/L", 0, 14, 2,
		      "oxygen wanted at the outlet"),
};

TARN_FIELDS(tarn_oxygen_fields, "oxygen", rows);
TARN_DEFAULT(IN, tarn_oxygen_default, tarn_oxygen_fields)

#define OUT struct tarn_oxygen_result
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, saturation_mgl, "saturation", "mg/L",
			"oxygen of saturated water"),
	TARN_OUT_NUMBER(OUT, inlet_mgl, "inlet", "mg/L", "oxygen at the inlet"),
	TARN_OUT_NUMBER(OUT, supply_g, "supply_g", "g/d",
			"oxygen brought in, with reaeration"),
	TARN_OUT_NUMBER(OUT, demand_g, "demand_g", "g/d", "oxygen used"),
	TARN_OUT_NUMBER(OUT, outlet_mgl, "outlet", "mg/L",
			"oxygen at the outlet; negative: lacking"),
	TARN_OUT_NUMBER(OUT, ammonia_limit_g, "ammonia_limit_g", "g/d",
			"ammonia nitrogen nitrified at most"),
	TARN_OUT_NUMBER(OUT, least_flow_m3s, "least_flow", "m3/s",
			"least flow that leaves what is to be kept"),
	BED_FLAG_ROWS(OUT),
};

TARN_FIELDS(tarn_oxygen_result_fields, "oxygen", result_rows);

enum tarn_status tarn_oxygen(const struct tarn_oxygen *o,
			     struct tarn_oxygen_result *out,
			     struct tarn_error *err)
{
	struct tarn_oxygen_result r = { 0 };
	enum tarn_status st = tarn_fields_check(&tarn_oxygen_fields, o, err);
	double flow, per_n, spare;
	size_t count;

	if (st != TARN_OK)
		return st;
	flow = o->flow_m3s * DAY;
	per_n = tarn_nitrifications(&count)[0].oxygen;
	r.saturation_mgl = tarn_oxygen_saturation(o->temp_c, o->elevation_m);
	r.inlet_mgl = o->inlet_mgl;
	if (isnan(r.inlet_mgl)) {
		r.inlet_mgl = o->assumed * r.saturation_mgl;
		r.flags |= TARN_BED_OXYGEN_ASSUMED;
	}
	r.supply_g = flow * r.inlet_mgl + o->reaeration_g;
	r.demand_g = per_n * o->ammonia_g + o->bod_g;
	r.outlet_mgl = (r.supply_g - r.demand_g) / flow;
	spare = r.supply_g - flow * o->keep_mgl - o->bod_g;
	r.ammonia_limit_g = spare > 0 ? spare / per_n : 0;
	r.least_flow_m3s = r.inlet_mgl > o->keep_mgl
		? fmax(0, r.demand_g - o->reaeration_g) /
		  (r.inlet_mgl - o->keep_mgl) / DAY
		: TARN_NAN;
	if (r.outlet_mgl < 0)
		r.flags |= TARN_BED_ANAEROBIC;
	else if (r.outlet_mgl < o->keep_mgl)
		r.flags |= TARN_BED_LOW_OXYGEN;
	*out = r;
	return TARN_OK;
}

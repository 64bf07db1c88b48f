/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define IN struct tarn_running_cost
static const struct tarn_field rows[] = {
	TARN_IN_NUMBER(IN, watts, "watts", "W", 0, 1e6, TARN_NAN,
		       "measured or label power"),
	TARN_IN_NUMBER(IN, amps, "amps", "A", 0, 1e4, TARN_NAN,
		       "measured or label current"),
	TARN_IN_NUMBER(IN, volts, "volts", "V", 1, 1e4, TARN_NAN,
		       "voltage, with amps"),
	TARN_IN_VALUE(IN, power_factor, "power_factor", "-", 0.05, 1, 1,
		      "real over apparent power"),
	TARN_IN_NUMBER(IN, flow_m3s, "flow", "m3/s", 0, 1000, TARN_NAN, "flow"),
	TARN_IN_NUMBER(IN, head_m, "head", "m", 0, 1e4, TARN_NAN, "head"),
	TARN_IN_NUMBER(IN, efficiency, "efficiency", "-", 0.01, 1, TARN_NAN,
		       "wire to water: pump x motor x drive"),
	TARN_IN_VALUE(IN, temp_c, "temp", "deg C", TARN_WATER_TEMP_MIN,
		      TARN_WATER_TEMP_MAX, 15, "temperature of the water"),
	TARN_IN_VALUE(IN, hours_per_day, "hours_per_day", "h/d", 0, 24, 24,
		      "running time"),
	TARN_IN_VALUE(IN, days_per_year, "days_per_year", "d", 0, 366, 365,
		      "running days"),
	TARN_IN_NUMBER(IN, price_per_kwh, "price", "1/kWh", 0, 1e6, TARN_NAN,
		       "price of a kWh"),
};
TARN_FIELDS(tarn_running_cost_fields, "running_cost", rows);
TARN_DEFAULT(IN, tarn_running_cost_default, tarn_running_cost_fields)

#define OUT struct tarn_running_cost_flow
static const struct tarn_field result_rows[] = {
	TARN_OUT_NUMBER(OUT, power_w, "power", "W", "power at the plug"),
	TARN_OUT_NUMBER(OUT, water_w, "water_power", "W",
			"power into the water"),
	TARN_OUT_NUMBER(OUT, efficiency, "efficiency", "-", "wire to water"),
	TARN_OUT_NUMBER(OUT, kwh_day, "kwh_day", "kWh/d", "energy a day"),
	TARN_OUT_NUMBER(OUT, kwh_year, "kwh_year", "kWh/a", "energy a year"),
	TARN_OUT_NUMBER(OUT, cost_day, "cost_day", "1/d", "cost a day"),
	TARN_OUT_NUMBER(OUT, cost_year, "cost_year", "1/a", "cost a year"),
};
TARN_FIELDS(tarn_running_cost_flow_fields, "running_cost", result_rows);

#define AFFINITY struct tarn_affinity
static const struct tarn_field affinity_rows[] = {
	TARN_OUT_NUMBER(AFFINITY, flow_m3s, "flow", "m3/s",
			"flow at that speed"),
	TARN_OUT_NUMBER(AFFINITY, head_m, "head", "m", "head at that speed"),
	TARN_OUT_NUMBER(AFFINITY, power_w, "power", "W", "power at that speed"),
};

TARN_FIELDS(tarn_affinity_fields, "affinity", affinity_rows);

struct tarn_affinity tarn_affinity(double flow_m3s, double head_m,
				   double power_w, double speed)
{
	struct tarn_affinity a = { TARN_NAN, TARN_NAN, TARN_NAN };

	if (!(speed > 0 && speed < HUGE_VAL))
		return a;
	a.flow_m3s = flow_m3s * speed;
	a.head_m = head_m * speed * speed;
	a.power_w = power_w * speed * speed * speed;
	return a;
}

double tarn_pump_water_w(double flow_m3s, double head_m, double density_kgm3)
{
	if (!(flow_m3s >= 0 && head_m >= 0 && density_kgm3 > 0))
		return TARN_NAN;
	return density_kgm3 * TARN_GRAVITY * flow_m3s * head_m;
}

enum tarn_status
tarn_running_cost_solve(const struct tarn_running_cost *cost,
			struct tarn_running_cost_flow *out,
			struct tarn_error *err)
{
	double water = tarn_pump_water_w(cost->flow_m3s, cost->head_m,
					 tarn_water(cost->temp_c).density_kgm3);
	double ways[] = { cost->watts,
			  cost->amps * cost->volts * cost->power_factor,
			  water / cost->efficiency };
	double power;

	if (tarn_fields_check(&tarn_running_cost_fields, cost, err) != TARN_OK)
		return TARN_EARG;
	if (tn_flow_need(ways, 3, 1, "running_cost", "watts; amps with volts; "
			 "flow with head and efficiency", err) != TARN_OK)
		return TARN_EARG;
	power = !isnan(ways[0]) ? ways[0] : !isnan(ways[1]) ? ways[1] : ways[2];
	out->power_w = power;
	out->water_w = water;
	out->efficiency = power > 0 ? water / power : TARN_NAN;
	out->kwh_day = power / 1000 * cost->hours_per_day;
	out->kwh_year = out->kwh_day * cost->days_per_year;
	out->cost_day = out->kwh_day * cost->price_per_kwh;
	out->cost_year = out->kwh_year * cost->price_per_kwh;
	return TARN_OK;
}

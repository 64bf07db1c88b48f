/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define NUMBER(member, name, lo, hi, unit, meaning) \
	FLOW_NUMBER(tarn_running_cost, member, name, lo, hi, unit, meaning)
#define NEEDED(member, name, lo, hi, unit, meaning) \
	FLOW_NEEDED(tarn_running_cost, member, name, lo, hi, unit, meaning)

static const struct tarn_field rows[] = {
	NUMBER(watts, "watts", 0, 1e6, "W", "measured or label power"),
	NUMBER(amps, "amps", 0, 1e4, "A", "measured or label current"),
	NUMBER(volts, "volts", 1, 1e4, "V", "voltage, with amps"),
	NEEDED(power_factor, "power_factor", 0.05, 1, "-",
	       "real over apparent power"),
	NUMBER(flow_m3s, "flow", 0, 1000, "m3/s", "flow"),
	NUMBER(head_m, "head", 0, 1e4, "m", "head"),
	NUMBER(efficiency, "efficiency", 0.01, 1, "-",
	       "wire to water: pump x motor x drive"),
	NEEDED(temp_c, "temp", TARN_WATER_TEMP_MIN, TARN_WATER_TEMP_MAX,
	       "deg C", "temperature of the water"),
	NEEDED(hours_per_day, "hours_per_day", 0, 24, "h/d", "running time"),
	NEEDED(days_per_year, "days_per_year", 0, 366, "d", "running days"),
	NUMBER(price_per_kwh, "price", 0, 1e6, "1/kWh", "price of a kWh"),
};
FLOW_FIELDS(tarn_running_cost_fields, "running_cost", rows);

#define RESULT(member, name, unit, meaning) \
	FLOW_RESULT(tarn_running_cost_flow, member, name, unit, meaning)

static const struct tarn_field result_rows[] = {
	RESULT(power_w, "power", "W", "power at the plug"),
	RESULT(water_w, "water_power", "W", "power into the water"),
	RESULT(efficiency, "efficiency", "-", "wire to water"),
	RESULT(kwh_day, "kwh_day", "kWh/d", "energy a day"),
	RESULT(kwh_year, "kwh_year", "kWh/a", "energy a year"),
	RESULT(cost_day, "cost_day", "1/d", "cost a day"),
	RESULT(cost_year, "cost_year", "1/a", "cost a year"),
};
FLOW_FIELDS(tarn_running_cost_flow_fields, "running_cost", result_rows);

struct tarn_running_cost tarn_running_cost_default(void)
{
	const double none = TARN_NAN;

	return (struct tarn_running_cost){
		.watts = none, .amps = none, .volts = none, .power_factor = 1,
		.flow_m3s = none, .head_m = none, .efficiency = none,
		.temp_c = 15, .hours_per_day = 24, .days_per_year = 365,
		.price_per_kwh = none,
	};
}

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
	if (flow_need(ways, 3, 1, "running_cost", "watts; amps with volts; "
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

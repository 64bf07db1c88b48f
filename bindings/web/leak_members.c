/* SPDX-License-Identifier: MIT */
#include "members.h"
#include "web.h"

#define ESTIMATE(name) SCALAR(tarn_estimate, #name, name, 'd')
const struct member web_estimate_members[] = {
	ESTIMATE(mean), ESTIMATE(low), ESTIMATE(high),
	{ 0 }
};

#define HALF(name, member, type) SCALAR(tarn_pair_half, name, member, type)
const struct member web_half_members[] = {
	HALF("expected", expected_m, 'd'),
	HALF("unexplained_mm_d", unexplained_mm_d, 'x'),
	HALF("unexplained_m3_d", unexplained_m3_d, 'x'),
	HALF("verdict", verdict, 'i'),
	HALF("resolvable_mm_d", resolvable_mm_d, 'd'),
	HALF("hours_needed", hours_needed, 'd'),
	{ 0 }
};

#define PAIR(name, member, type) SCALAR(tarn_pair_result, name, member, type)
const struct member web_pair_members[] = {
	PAIR("has_off", has_off, 'i'), PAIR("has_on", has_on, 'i'),
	PAIR("off", off, 'x'), PAIR("on", on, 'x'),
	PAIR("upper_mm_d", upper_mm_d, 'x'),
	PAIR("upper_m3_d", upper_m3_d, 'x'),
	PAIR("upper_verdict", upper_verdict, 'i'),
	{ 0 }
};

#define LOG_INFO(name, member, type) SCALAR(tarn_log_info, name, member, type)
const struct member web_log_info_members[] = {
	LOG_INFO("counts_down", counts_down, 'i'),
	LOG_INFO("step", step_m, 'd'), LOG_INFO("levels", levels, 'u'),
	LOG_INFO("meters", meters, 'u'),
	LOG_INFO("without_time", without_time, 'u'),
	LOG_INFO("unread_notes", unread_notes, 'u'),
	{ 0 }
};

const struct member web_reading_members[] = {
	SCALAR(tarn_reading, "day", day, 'i'),
	{ 0 }
};

#define INTERVAL(name, member, type) SCALAR(tarn_interval, name, member, type)
const struct member web_interval_members[] = {
	INTERVAL("from", from, 'u'), INTERVAL("to", to, 'u'),
	INTERVAL("days", days, 'd'), INTERVAL("use", use, 'i'),
	INTERVAL("logged_mm", logged_mm, 'd'),
	INTERVAL("expected_mm", expected_mm, 'd'),
	INTERVAL("expected_sd_mm", expected_sd_mm, 'd'),
	INTERVAL("rain_mm", rain_mm, 'd'),
	INTERVAL("open_water_mm", open_water_mm, 'd'),
	INTERVAL("wild", wild, 'i'),
	{ 0 }
};

#define LEAK(name, member, type) SCALAR(tarn_leak_result, name, member, type)
#define CHANGE(name, member, type) LEAK("change_" name, change.member, type)
const struct member web_leak_members[] = {
	LEAK("verdict", verdict, 'i'), LEAK("gains", gains, 'i'),
	LEAK("readings", readings, 'u'), LEAK("used", used, 'u'),
	LEAK("wild", wild, 'u'), LEAK("days", days, 'd'),
	LEAK("area", area_m2, 'd'), LEAK("logged_mm", logged_mm, 'd'),
	LEAK("expected_mm", expected_mm, 'x'),
	LEAK("evaporation_factor", evaporation_factor, 'x'),
	LEAK("rain_factor", rain_factor, 'x'),
	LEAK("unexplained_m3_d", unexplained_m3_d, 'x'),
	LEAK("unexplained_mm_d", unexplained_mm_d, 'x'),
	LEAK("chance_of_loss", chance_of_loss, 'd'),
	LEAK("sound_factor", sound_factor, 'x'),
	LEAK("per_head_m3_d_m", per_head_m3_d_m, 'x'),
	LEAK("head_tells", head_tells, 'i'), LEAK("noise", noise, 'd'),
	LEAK("resolvable_mm_d", resolvable_mm_d, 'd'),
	CHANGE("chance", chance, 'd'), CHANGE("found", found, 'i'),
	CHANGE("first", first_day, 'i'), CHANGE("day", day, 'i'),
	CHANGE("last", last_day, 'i'),
	CHANGE("before_mm_d", before_mm_d, 'x'),
	CHANGE("after_mm_d", after_mm_d, 'x'),
	{ 0 }
};

#define POINT(name, member, type) \
	SCALAR(tarn_level_point, name, member, type)
const struct member web_point_members[] = {
	POINT("day", day, 'd'), POINT("logged", logged_m, 'd'),
	POINT("expected", expected_m, 'd'), POINT("low", low_m, 'd'),
	POINT("high", high_m, 'd'), POINT("begins", begins, 'i'),
	{ 0 }
};

#define METER(name, member, type) SCALAR(tarn_meter_week, name, member, type)
const struct member web_meter_week_members[] = {
	METER("first", first_day, 'i'), METER("last", last_day, 'i'),
	METER("days", days, 'd'), METER("metered", metered_m3, 'd'),
	METER("implied", implied_m3, 'd'), METER("expected", expected_m3, 'd'),
	METER("expected_high", expected_high_m3, 'd'), METER("over", over, 'i'),
	{ 0 }
};

#define HOLDOUT(name, member, type) SCALAR(tarn_holdout, name, member, type)
const struct member web_holdout_members[] = {
	HOLDOUT("fitted", fitted, 'u'), HOLDOUT("predicted", predicted, 'u'),
	HOLDOUT("days", days, 'd'), HOLDOUT("rms_mm", rms_mm, 'd'),
	HOLDOUT("plain_rms_mm", plain_rms_mm, 'd'),
	{ 0 }
};

/* SPDX-License-Identifier: MIT */
#include "tarn/climate.h"

/*
 * Published monthly normals; in deg C and mm, rounded from degrees Fahrenheit and
 * inches where those are printed.  docs/methods/climate.md says where each was
 * read.
 *
 * The spread of single days is printed nowhere: it is that of the normal
 * distribution whose share above the table's thresholds (days over 40, 50 ..
 * 100 F, under 0, 10 .. 70 F; over 0, 10 .. 35 C, under -20 .. 2 C) is the
 * table's number of days, by least squares on its quantiles: our sum from
 * published inputs.  Toronto prints no threshold near its nights of June to
 * September: there it is the spread of the days times Lebanon's ratio, ours.
 * De Bilt's is that of its days.
 */
static const struct tarn_climate climates[] = {
	{
		.name = "de_bilt",
		.place = "De Bilt, Netherlands",
		.kind = "mild and damp all year",
		.station = "KNMI station 260",
		.period = "1990-2019",
		.source = "KNMI, daily data of station 260: means and "
			  "spreads of its days (our sum)",
		.licence = "CC BY 4.0: credit KNMI",
		.latitude_deg = 52.1, .elevation_m = 2, .wet_mm = 0.25,
		.tmax_c = {
			6.11, 7.07, 10.56, 14.73, 18.38, 20.83, 23.09, 22.82,
			19.36, 14.89, 9.82, 6.61 },
		.tmin_c = {
			0.87, 0.73, 2.43, 4.51, 8.01, 10.77, 12.98, 12.43,
			9.99, 7.09, 3.85, 1.51 },
		.tmax_sd_c = {
			4.0, 4.1, 3.8, 4.4, 4.6, 4.1, 4.1, 3.7, 3.3, 3.4, 3.5,
			4.0 },
		.tmin_sd_c = {
			4.5, 4.5, 3.7, 3.6, 3.5, 3.0, 2.8, 2.8, 3.1, 3.9, 4.0,
			4.4 },
		.rain_mm = {
			70.7, 61.5, 56.5, 42.9, 60.0, 69.8, 84.9, 82.5, 78.4,
			79.6, 80.9, 82.2 },
		.wet_days = {
			15.8, 13.8, 12.9, 11.0, 11.8, 11.9, 13.2, 13.0, 13.1,
			14.1, 16.8, 16.5 },
	},
	{
		.name = "seattle",
		.place = "Seattle, Washington, US",
		.kind = "mild; wet winters, dry summers",
		.station = "USW00094290, Sand Point",
		.period = "1981-2010",
		.source = "NOAA NCEI, U.S. Climate Normals 1981-2010, "
			  "monthly",
		.licence = "public domain (US government work)",
		.latitude_deg = 47.6872, .elevation_m = 18.3, .wet_mm = 0.25,
		.tmax_c = {
			8.44, 10.00, 12.11, 14.72, 17.94, 20.94, 24.28, 24.61,
			21.50, 15.61, 10.78, 7.72 },
		.tmin_c = {
			2.78, 2.72, 4.06, 5.83, 8.78, 11.28, 13.39, 13.78,
			11.39, 8.06, 5.00, 2.39 },
		.tmax_sd_c = {
			3.3, 3.3, 3.2, 3.3, 4.2, 3.6, 3.8, 3.5, 3.7, 3.3, 2.6,
			3.0 },
		.tmin_sd_c = {
			3.4, 3.0, 2.3, 2.2, 2.3, 1.5, 1.9, 2.0, 1.6, 2.5, 3.1,
			3.0 },
		.rain_mm = {
			122.2, 84.1, 89.2, 70.4, 54.9, 41.4, 20.1, 24.6, 38.6,
			86.6, 148.3, 137.9 },
		.wet_days = {
			18.5, 14.1, 17.1, 15.0, 12.5, 9.9, 5.8, 5.7, 7.8, 13.2,
			18.5, 18.8 },
	},
	{
		.name = "toronto",
		.place = "Toronto, Ontario, Canada",
		.kind = "cold winters, warm summers; rain all year",
		.station = "6158350, Toronto",
		.period = "1981-2010",
		.source = "Environment and Climate Change Canada, "
			  "Canadian Climate Normals 1981-2010",
		.licence = "Open Government Licence - Canada",
		.latitude_deg = 43.6667, .elevation_m = 112.5, .wet_mm = 0.2,
		.tmax_c = {
			-0.70, 0.40, 4.70, 11.50, 18.40, 23.80, 26.60, 25.50,
			21.00, 14.00, 7.50, 2.10 },
		.tmin_c = {
			-6.70, -5.60, -1.90, 4.10, 9.90, 14.90, 18.00, 17.40,
			13.40, 7.40, 2.30, -3.10 },
		.tmax_sd_c = {
			5.3, 4.8, 5.7, 6.0, 4.5, 4.5, 3.4, 3.3, 4.4, 4.7, 4.2,
			4.9 },
		.tmin_sd_c = {
			6.6, 6.0, 5.6, 3.9, 3.2, 3.8, 3.3, 3.7, 5.3, 3.8, 4.0,
			5.8 },
		.rain_mm = {
			61.5, 55.4, 53.7, 68.0, 82.0, 70.9, 63.9, 81.1, 84.7,
			64.4, 84.1, 61.5 },
		.wet_days = {
			15.4, 11.6, 12.6, 12.6, 12.7, 11.0, 10.4, 10.2, 11.1,
			11.7, 13.0, 13.2 },
	},
	{
		.name = "lebanon",
		.place = "Lebanon, New Hampshire, US",
		.kind = "cold, snowy winters; cool summers with rain",
		.station = "USW00094765, municipal airport",
		.period = "1991-2020",
		.source = "NOAA NCEI, U.S. Climate Normals 1991-2020, "
			  "monthly",
		.licence = "public domain (US government work)",
		.latitude_deg = 43.6264, .elevation_m = 182.3, .wet_mm = 0.25,
		.tmax_c = {
			-0.94, 1.06, 6.11, 13.67, 20.94, 25.50, 28.17, 27.28,
			22.72, 15.44, 8.22, 1.94 },
		.tmin_c = {
			-12.61, -11.67, -6.28, -0.06, 6.50, 11.33, 14.33,
			13.44, 9.22, 3.00, -2.39, -7.72 },
		.tmax_sd_c = {
			5.8, 5.3, 5.9, 6.8, 6.2, 5.1, 3.8, 3.5, 4.4, 5.4, 5.5,
			5.2 },
		.tmin_sd_c = {
			7.7, 7.0, 6.8, 4.0, 4.9, 4.3, 3.6, 3.9, 5.2, 5.6, 4.9,
			6.8 },
		.rain_mm = {
			58.2, 53.3, 68.6, 75.9, 84.3, 96.5, 101.3, 91.9, 87.4,
			101.6, 75.7, 72.1 },
		.wet_days = {
			10.5, 10.3, 10.9, 12.1, 13.9, 14.7, 14.5, 13.6, 12.5,
			13.5, 11.4, 12.4 },
	},
	{
		.name = "richmond",
		.place = "Richmond, Virginia, US",
		.kind = "cool winters, hot and humid summers; rain all "
			  "year",
		.station = "USW00013740, international airport",
		.period = "1981-2010",
		.source = "NOAA NCEI, U.S. Climate Normals 1981-2010, "
			  "monthly",
		.licence = "public domain (US government work)",
		.latitude_deg = 37.505, .elevation_m = 50, .wet_mm = 0.25,
		.tmax_c = {
			8.56, 10.72, 15.56, 21.28, 25.50, 30.06, 32.06, 30.89,
			27.33, 21.67, 16.33, 10.39 },
		.tmin_c = {
			-2.06, -0.83, 2.83, 7.83, 12.78, 18.06, 20.50, 19.67,
			15.61, 9.06, 4.11, -0.33 },
		.tmax_sd_c = {
			6.7, 6.4, 6.4, 5.7, 5.0, 4.5, 3.7, 3.4, 4.0, 5.0, 5.2,
			6.2 },
		.tmin_sd_c = {
			5.3, 5.1, 5.3, 4.6, 4.7, 3.8, 2.6, 2.9, 4.2, 5.2, 5.7,
			5.4 },
		.rain_mm = {
			77.2, 70.1, 102.6, 83.1, 96.0, 99.8, 114.6, 118.4,
			104.9, 75.7, 82.3, 82.8 },
		.wet_days = {
			9.7, 8.9, 10.3, 10.0, 10.8, 10.0, 11.4, 9.1, 8.4, 7.4,
			8.3, 9.7 },
	},
	{
		.name = "austin",
		.place = "Austin, Texas, US",
		.kind = "mild winters, long hot summers; uneven rain",
		.station = "USW00013904, Bergstrom airport",
		.period = "1981-2010",
		.source = "NOAA NCEI, U.S. Climate Normals 1981-2010, "
			  "monthly",
		.licence = "public domain (US government work)",
		.latitude_deg = 30.1831, .elevation_m = 146.3, .wet_mm = 0.25,
		.tmax_c = {
			16.72, 18.22, 22.11, 26.56, 30.39, 33.44, 35.11, 35.61,
			32.44, 27.89, 21.89, 17.56 },
		.tmin_c = {
			2.39, 4.11, 8.11, 12.61, 17.61, 21.06, 22.06, 21.83,
			18.50, 13.28, 7.50, 2.89 },
		.tmax_sd_c = {
			6.1, 6.4, 5.2, 3.5, 3.3, 2.5, 2.8, 2.3, 3.5, 4.7, 6.2,
			5.6 },
		.tmin_sd_c = {
			6.3, 6.9, 6.0, 5.5, 4.3, 2.5, 1.1, 2.3, 4.3, 5.6, 6.3,
			6.8 },
		.rain_mm = {
			55.9, 58.7, 70.6, 57.7, 102.9, 117.6, 62.0, 51.6, 64.5,
			107.7, 74.7, 56.1 },
		.wet_days = {
			7.2, 6.9, 9.7, 6.5, 6.2, 6.6, 6.9, 5.6, 5.8, 7.1, 7.1,
			6.6 },
	},
};
enum { COUNT = sizeof climates / sizeof climates[0] };

const struct tarn_climate *tarn_climates(size_t *count)
{
	if (count)
		*count = COUNT;
	return climates;
}

/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "tarn.h"

/* Two tables of one station in one. */

static struct tarn_weather *table(const char *text)
{
	struct tarn_error err = { 0 };
	struct tarn_weather *w;

	cr_assert(tarn_weather_read_text(&w, NULL, text, strlen(text), NULL,
					 NULL, &err) == TARN_OK, "%s", err.text);
	return w;
}

static void refused(const char *a, const char *b, const char *field,
		    const char *part)
{
	struct tarn_weather *x = table(a), *y = table(b), *out;
	struct tarn_error err = { 0 };

	cr_expect(tarn_weather_join(&out, x, y, &err) == TARN_EARG && !out);
	cr_expect_str_eq(err.field, field);
	cr_expect(strstr(err.text, part) != NULL, "%s", err.text);
	tarn_weather_free(x);
	tarn_weather_free(y);
}

Test(weather_join, columns_and_days_of_both)
{
	struct tarn_weather *a = table("# latitude: 51.25\n"
				       "date,rain_mm\n2015-01-02,1.5\n"
				       "2015-01-03,\n2015-01-04,2.5\n");
	struct tarn_weather *b = table("# station: Hill\n# elevation: 120\n"
				       "date,tmin_c,tmax_c,rain_mm\n"
				       "2014-12-31,1,5,9\n2015-01-03,2,6,0\n"
				       "2015-01-04,3,7,2.5\n");
	struct tarn_error err = { 0 };
	const struct tarn_site *site;
	struct tarn_weather *w;
	const double *rain, *tmax;

	cr_assert(tarn_weather_join(&w, a, b, &err) == TARN_OK, "%s", err.text);
	cr_assert(tarn_weather_days(w) == 5);
	cr_expect(tarn_weather_first(w) == tarn_day(2014, 12, 31));
	rain = tarn_weather_column(w, TARN_RAIN);
	tmax = tarn_weather_column(w, TARN_TMAX);
	cr_assert(rain && tmax && !tarn_weather_column(w, TARN_WIND));
	cr_expect(rain[0] == 9 && isnan(rain[1]) && rain[2] == 1.5 &&
		  rain[3] == 0 && rain[4] == 2.5);
	cr_expect(tmax[0] == 5 && isnan(tmax[2]) && tmax[4] == 7);
	site = tarn_weather_site_of(w);
	cr_expect(site->latitude_deg == 51.25 && site->elevation_m == 120);
	cr_expect_str_eq(site->name, "Hill");
	cr_expect(tarn_weather_notes(w) ==
		  tarn_weather_notes(a) + tarn_weather_notes(b));
	tarn_weather_free(a);
	tarn_weather_free(b);
	tarn_weather_free(w);
}

Test(weather_join, what_does_not_belong_together)
{
	refused("date,rain_mm\n2015-01-01,1\n", "date,rain_mm\n2015-01-01,2\n",
		"rain", "on 2015-01-01 is 1 mm in one file and 2");
	refused("# latitude: 51\ndate,rain_mm\n2015-01-01,1\n",
		"# latitude: 52\ndate,tmin_c\n2015-01-01,1\n", "latitude",
		"two places");
	refused("date,tmin_c\n2015-01-01,5\n", "date,tmax_c\n2015-01-01,4\n",
		"tmin", "over tmax");
}

static long left;

static void *scarce(void *context, void *block, size_t bytes)
{
	(void)context;
	if (bytes == 0) {
		free(block);
		return NULL;
	}
	return left-- > 0 ? realloc(block, bytes) : NULL;
}

Test(weather_join, every_failed_allocation_is_reported)
{
	struct tarn_alloc alloc = { scarce, NULL };
	struct tarn_weather *a, *b = table("date,rain_mm\n2015-01-02,2\n"), *w;
	const char *text = "date,tmin_c,tmax_c\n2015-01-01,1,5\n";
	enum tarn_status status = TARN_ENOMEM;
	struct tarn_error err = { 0 };
	long n;

	left = 1000;
	cr_assert(tarn_weather_read_text(&a, &alloc, text, strlen(text), NULL,
					 NULL, &err) == TARN_OK, "%s", err.text);
	for (n = 0; status != TARN_OK && n < 100; n++) {
		memset(&err, 0, sizeof err);
		left = n;
		status = tarn_weather_join(&w, a, b, &err);
		cr_expect(status == err.code && (status == TARN_OK || !w));
		cr_expect(status == TARN_OK || status == TARN_ENOMEM);
		if (status == TARN_OK)
			tarn_weather_free(w);
	}
	cr_expect(n > 4 && n < 100, "%ld", n);
	tarn_weather_free(a);
	tarn_weather_free(b);
}

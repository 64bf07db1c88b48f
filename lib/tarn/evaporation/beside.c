/* SPDX-License-Identifier: MIT */
#include "internal.h"

/* A method beside another one, on weather that lacks some of its days. */

unsigned tn_method_columns(enum tarn_method m)
{
	unsigned needs = tn_method_needs(m), columns = 0;

	if (needs & NEEDS_AIR)
		columns |= BIT(TARN_TMIN) | BIT(TARN_TMAX);
	if (needs & NEEDS_PAN)
		columns |= BIT(TARN_PAN);
	if (needs & NEEDS_REFERENCE)
		columns |= BIT(TARN_REFERENCE);
	if (needs & NEEDS_OPEN_WATER)
		columns |= BIT(TARN_OPEN_WATER);
	return columns;
}

int tn_weather_lacks(const struct tarn_weather *w, unsigned columns, size_t i)
{
	const unsigned char *out = tarn_weather_left_out(w);

	if (out && out[i])
		return 0;
	for (int c = 0; c < TARN_COLUMNS; c++) {
		const double *x = tarn_weather_column(w, (enum tarn_column)c);

		if (columns & BIT(c) && (!x || isnan(x[i])))
			return 1;
	}
	return 0;
}

/* Gaps become the line between the days beside them, or the nearest day. */
static void bridge(double *x, size_t days)
{
	for (size_t i = 0, end; i < days; i = end) {
		end = i + 1;
		if (!isnan(x[i]))
			continue;
		while (end < days && isnan(x[end]))
			end++;
		for (size_t k = i; k < end; k++) {
			double t = (double)(k - i + 1) / (double)(end - i + 1);
			double a = i > 0 ? x[i - 1] : x[end % days];
			double b = end < days ? x[end] : a;

			x[k] = a + (b - a) * t;
		}
	}
}

/* A copy in which the method can be run; what stands on days that it lacks is
 * replaced afterwards, but for the heat that the water keeps. */
static enum tarn_status complete(struct tarn_weather **out,
				 const struct tarn_weather *w, unsigned columns,
				 struct tarn_error *err)
{
	size_t days = tarn_weather_days(w);
	long first = tarn_weather_first(w);
	enum tarn_status s = tarn_weather_slice(out, w, first,
						first + (long)days - 1, err);

	for (int c = 0; c < TARN_COLUMNS && s == TARN_OK; c++)
		if (columns & BIT(c) &&
		    tarn_weather_column(*out, (enum tarn_column)c))
			bridge(tarn_weather_add(*out, (enum tarn_column)c),
			       days);
	if (s != TARN_OK || !(columns & BIT(TARN_TMIN)) ||
	    !tarn_weather_column(*out, TARN_TMIN) ||
	    !tarn_weather_column(*out, TARN_TMAX))
		return s;
	for (size_t i = 0; i < days; i++) {
		double *lo = tarn_weather_add(*out, TARN_TMIN) + i;
		double *hi = tarn_weather_add(*out, TARN_TMAX) + i;

		if (*lo > *hi && tn_weather_lacks(w, columns, i))
			*lo = *hi;
	}
	return s;
}

static size_t count_lacking(const struct tarn_weather *w, unsigned columns)
{
	size_t lacking = 0;

	for (size_t i = 0; i < tarn_weather_days(w); i++)
		lacking += (size_t)tn_weather_lacks(w, columns, i);
	return lacking;
}

long tarn_evaporation_lacking(const struct tarn_weather *w,
			      const struct tarn_evaporation_options *o,
			      enum tarn_method m)
{
	struct tarn_weather *whole = NULL;
	enum tarn_status status;
	long lacking = -1;

	if ((unsigned)m >= TARN_METHODS || m == TARN_METHOD_AUTO)
		return -1;
	status = complete(&whole, w, tn_method_columns(m), NULL);
	if (status == TARN_ENOMEM)
		lacking = -2;
	else if (status == TARN_OK && tarn_evaporation_possible(whole, o, m))
		lacking = (long)count_lacking(w, tn_method_columns(m));
	tarn_weather_free(whole);
	return lacking;
}

/* Days that the method lacks are the base's, times what the method gives of
 * the base on all other days. */
static void scale_in(const struct tarn_weather *w, unsigned columns,
		     const double *base_mm, double *mm)
{
	const unsigned char *out = tarn_weather_left_out(w);
	size_t days = tarn_weather_days(w);
	double base = 0, own = 0;

	for (size_t i = 0; i < days; i++)
		if (!tn_weather_lacks(w, columns, i) && !(out && out[i])) {
			base += base_mm[i];
			own += mm[i];
		}
	for (size_t i = 0; i < days; i++)
		if (tn_weather_lacks(w, columns, i))
			mm[i] = base > 0 ? base_mm[i] * (own / base)
					 : base_mm[i];
}

enum tarn_status tarn_evaporation_beside(const struct tarn_weather *w,
					 const struct tarn_evaporation_options *o,
					 const struct tarn_evaporation_base *base,
					 double *open_water_mm,
					 double *grass_mm,
					 struct tarn_evaporation_report *report,
					 struct tarn_error *err)
{
	struct tarn_weather *whole = NULL;
	size_t days = tarn_weather_counted(w), lacking;
	unsigned columns;
	enum tarn_status s = tarn_fields_check(&tarn_evaporation_fields, o,
					       err);

	if (s == TARN_OK && o->method == TARN_METHOD_AUTO)
		s = tarn_fail(err, TARN_EARG, "method", "must be named: auto "
			      "has no other to stand beside");
	if (s != TARN_OK)
		return s;
	columns = tn_method_columns((enum tarn_method)o->method);
	lacking = count_lacking(w, columns);
	s = complete(&whole, w, columns, err);
	if (s == TARN_OK)
		s = tarn_evaporation_run(whole, o, open_water_mm, grass_mm,
					 NULL, report, err);
	tarn_weather_free(whole);
	if (s == TARN_OK &&
	    (double)lacking > TARN_BESIDE_LACKING * (double)days)
		return tarn_fail(err, TARN_EARG, "method", "%s lacks %zu of "
				 "%zu days: more than %g %%, too many to be "
				 "compared",
				 tarn_method_name((enum tarn_method)o->method),
				 lacking, days, 100 * TARN_BESIDE_LACKING);
	if (s == TARN_OK && lacking > 0) {
		scale_in(w, columns, base->open_water_mm, open_water_mm);
		scale_in(w, columns, base->grass_mm, grass_mm);
	}
	return s;
}

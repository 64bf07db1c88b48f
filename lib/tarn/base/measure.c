/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/measure.h"

static int is_plain(const struct tarn_dimension *d)
{
	static const signed char none[TARN_DIMENSION_BASES];

	return memcmp(d->power, none, sizeof none) == 0;
}

struct tarn_measure tarn_measure_plain(double number)
{
	struct tarn_measure m;

	memset(&m, 0, sizeof m);
	m.number = number;
	m.unit.num = m.unit.den = 1;
	return m;
}

int tarn_measure_unit(const char *name, struct tarn_measure *out)
{
	size_t count;
	const struct tarn_unit *units = tarn_units(&count);

	for (size_t i = 0; i < count; i++)
		if (strcmp(units[i].name, name) == 0) {
			out->number = units[i].factor;
			return tarn_dimension(units[i].si, &out->unit);
		}
	return 0;
}

/* number x p / q with as few roundings as there can be. */
static double scaled(double number, double p, double q)
{
	if (p == q)
		return number;
	if (fmod(p, q) == 0)
		return number * (p / q);
	if (fmod(q, p) == 0)
		return number / (q / p);
	return number * p / q;
}

double tarn_measure_in(const struct tarn_measure *m,
		       const struct tarn_dimension *unit)
{
	if (!tarn_dimension_alike(&m->unit, unit))
		return TARN_NAN;
	return scaled(m->number, m->unit.num * unit->den,
		      m->unit.den * unit->num);
}

/* The same in the units of SI. */
static struct tarn_measure in_si(const struct tarn_measure *m)
{
	struct tarn_measure si = *m;

	si.number = scaled(m->number, m->unit.num, m->unit.den);
	si.unit.num = si.unit.den = 1;
	return si;
}

/* The two in one unit; a plain 0 takes the other's.  0: unlike. */
static int bring_together(struct tarn_measure *a, struct tarn_measure *b)
{
	if (a->number == 0 && is_plain(&a->unit))
		a->unit = b->unit;
	if (b->number == 0 && is_plain(&b->unit))
		b->unit = a->unit;
	if (!tarn_dimension_alike(&a->unit, &b->unit))
		return 0;
	if (a->unit.num != b->unit.num || a->unit.den != b->unit.den) {
		*a = in_si(a);
		*b = in_si(b);
	}
	return 1;
}

int tarn_measure_add(const struct tarn_measure *a,
		     const struct tarn_measure *b, struct tarn_measure *out)
{
	struct tarn_measure x = *a, y = *b;

	if (!bring_together(&x, &y))
		return 0;
	*out = x;
	out->number = x.number + y.number;
	return 1;
}

/* Adds so many times the powers of b to those of out; 0: beyond what a power
 * may be. */
static int add_powers(struct tarn_measure *out, const struct tarn_measure *b,
		      int times)
{
	for (int i = 0; i < TARN_DIMENSION_BASES; i++) {
		int sum = out->unit.power[i] + times * b->unit.power[i];

		if (sum < -126 || sum > 126)
			return 0;
		out->unit.power[i] = (signed char)sum;
	}
	return 1;
}

int tarn_measure_multiply(const struct tarn_measure *a,
			  const struct tarn_measure *b,
			  struct tarn_measure *out)
{
	int plain = is_plain(&a->unit) || is_plain(&b->unit);
	struct tarn_measure x = plain ? *a : in_si(a);
	struct tarn_measure y = plain ? *b : in_si(b);

	if (!add_powers(&x, &y, 1))
		return 0;
	x.unit.num *= y.unit.num;
	x.unit.den *= y.unit.den;
	x.number *= y.number;
	*out = x;
	return 1;
}

int tarn_measure_divide(const struct tarn_measure *a,
			const struct tarn_measure *b, struct tarn_measure *out)
{
	int plain = is_plain(&b->unit);
	struct tarn_measure x = plain ? *a : in_si(a);
	struct tarn_measure y = plain ? *b : in_si(b);

	if (!add_powers(&x, &y, -1))
		return 0;
	x.unit.num *= y.unit.den;
	x.unit.den *= y.unit.num;
	x.number /= y.number;
	*out = x;
	return 1;
}

int tarn_measure_power(const struct tarn_measure *a, double exponent,
		       struct tarn_measure *out)
{
	struct tarn_measure x = in_si(a);

	for (int i = 0; i < TARN_DIMENSION_BASES; i++) {
		double power = x.unit.power[i] * exponent;

		/* a third is no exact number */
		if (!(fabs(power) <= 126) ||
		    !(fabs(power - rint(power)) < 1e-9))
			return 0;
		x.unit.power[i] = (signed char)rint(power);
	}
	x.number = pow(x.number, exponent);
	*out = x;
	return 1;
}

int tarn_measure_compare(const struct tarn_measure *a,
			 const struct tarn_measure *b, int *order)
{
	struct tarn_measure x = *a, y = *b;

	if (!bring_together(&x, &y))
		return 0;
	*order = (x.number > y.number) - (x.number < y.number);
	return 1;
}

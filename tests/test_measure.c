/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "numbers.h"
#include "tarn/design.h"
#include "tarn/measure.h"

static const char *kind_of(const char *name, char room[48])
{
	struct tarn_measure m;

	return tarn_measure_unit(name, &m) ? tarn_dimension_word(&m.unit, room)
					   : "none";
}

/* The units of the list, each with what it measures: by what its name says. */
Test(measure, each_unit_has_its_dimension)
{
	static const struct { const char *word, *names; } kinds[] = {
		{ "a length", " m cm mm km ft inch yd " },
		{ "an area", " m2 ft2 inch2 yd2 acre ha " },
		{ "a volume", " m3 liter gal kgal ft3 yd3 ccf " },
		{ "a time", " second minute hour day week " },
		{ "a flow", " gpm gph gpd lpm lph lpd cfs " },
		{ "a speed or a rate of depth",
		  " mph kmh fps mm_per_day inch_per_day m_per_day m_per_hour "
		  "gpm_per_ft2 gph_per_ft2 gpd_per_ft2 lpm_per_m2 mm_per_hour "
		  "inch_per_hour " },
		{ "a mass", " kg g lb ton tonne " },
		{ "a pressure", " kPa psi " },
		{ "a power", " watt kW hp " },
		{ "an energy", " kWh " },
		{ "a plain number", " percent " },
	};
	size_t count, known = 0;
	const struct tarn_unit *units = tarn_units(&count);
	char room[48], spaced[64];

	for (size_t i = 0; i < count; i++) {
		const char *word = kind_of(units[i].name, room);

		snprintf(spaced, sizeof spaced, " %s ", units[i].name);
		for (size_t k = 0; k < sizeof kinds / sizeof kinds[0]; k++)
			if (strstr(kinds[k].names, spaced)) {
				cr_expect_str_eq(word, kinds[k].word, "%s is %s",
						 units[i].name, word);
				known++;
			}
	}
	cr_expect(known == count, "%zu of %zu units", known, count);
	cr_expect_str_eq(kind_of("cubit", room), "none");
}

static void check_row(void *context, const char *path,
		      const struct tarn_field *row)
{
	struct tarn_dimension d;

	if (row->kind != TARN_FIELD_NUMBER && row->kind != TARN_FIELD_MONTHS &&
	    row->kind != TARN_FIELD_NUMBERS && row->kind != TARN_FIELD_PAIRS)
		return;
	cr_expect(tarn_field_dimension(row, 0, &d) &&
		  tarn_field_dimension(row, 1, &d), "%s has the unit '%s'", path,
		  row->unit);
	++*(int *)context;
}

Test(measure, each_field_has_a_dimension)
{
	int rows = 0;

	tarn_fields_walk(&tarn_design_fields, check_row, &rows);
	cr_expect(rows > 150, "%d", rows);
}

Test(measure, units_of_rows)
{
	static const struct {
		const char *unit, *same;
		double size;	/* of the first in the second */
	} rows[] = {
		{ "mm/d", "m/s", 1 / 86400000.0 }, { "mm/h", "mm/d", 24 },
		{ "m/d", "mm/h", 1000 / 24.0 }, { "m3/s/m", "m2/s", 1 },
		{ "mg/L", "kg/m3", 1e-3 }, { "1/h", "1/s", 1 / 3600.0 },
		{ "money/kWh", "1/kWh", 1 }, { "m/yr", "m/d", 1 / 365.0 },
		{ "inch", "m", 0.0254 }, { "%", "-", 0.01 }, { "W", "V/1", 0 },
		{ "s/m^(1/3)", "s/m^(2/6)", 1 }, { "m^0.5/s", "m/s", 0 },
		{ "m^1.5", "m/m", 0 }, { "kWh", "W", 0 }, { "h", "years", 1 / 8760.0 },
	};
	static const char *const none[] = {
		"", "date", "any", "m3 s", "m-2", "deg F", "m^99", "m^0", "ms",
		"h^0.5", "/s", "m^(1/0)", "m^10", "furlong", "m9/m9/m9/m9/m9",
	};
	struct tarn_dimension d, e;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_measure one = tarn_measure_plain(1);
		double x;

		cr_assert(tarn_dimension(rows[i].unit, &one.unit), "%s",
			  rows[i].unit);
		cr_assert(tarn_dimension(rows[i].same, &d), "%s", rows[i].same);
		x = tarn_measure_in(&one, &d);
		cr_expect(tarn_dimension_alike(&one.unit, &d) ==
			  (rows[i].size > 0));
		if (rows[i].size > 0)
			cr_expect(fabs(x / rows[i].size - 1) < 4e-16,
				  "%s is %.17g %s", rows[i].unit, x,
				  rows[i].same);
		else
			cr_expect(isnan(x));
	}
	for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
		cr_expect(!tarn_dimension(none[i], &e), "%s",
			  none[i]);
}

/* What has no word is told by its powers. */
Test(measure, powers_of_an_odd_unit)
{
	static const struct { const char *unit, *word; } rows[] = {
		{ "s/m^(1/3)", "m^-0.333 s^1" }, { "m^0.5/s", "m^0.5 s^-1" },
		{ "m^1.5", "m^1.5" }, { "kg/m2", "m^-2 kg^1" },
		{ "m3", "a volume" },
	};
	char room[48];

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_dimension d;

		cr_assert(tarn_dimension(rows[i].unit, &d));
		cr_expect_str_eq(tarn_dimension_word(&d, room), rows[i].word);
	}
}

/* ---- arithmetic ------------------------------------------------------------- */

static struct tarn_measure of(double x, const char *unit)
{
	struct tarn_measure m;

	cr_assert(tarn_measure_unit(unit, &m), "%s", unit);
	m.number *= x;
	return m;
}

static double in(const struct tarn_measure *m, const char *unit)
{
	struct tarn_dimension d;

	cr_assert(tarn_dimension(unit, &d));
	return tarn_measure_in(m, &d);
}

/* 1 inch a day is 25.4 / 24 mm an hour; 7.50 USD a thousand gallons of
 * 3.785411784 L each is 1.9813 USD/m3, by hand. */
Test(measure, arithmetic)
{
	struct tarn_measure a = of(6, "inch_per_day"), b = of(4, "ft"), c;
	struct tarn_measure seven = tarn_measure_plain(7.5), zero =
		tarn_measure_plain(0), kgal = of(1, "kgal"), d = of(2, "day");
	int order;

	cr_expect(fabs(in(&a, "mm/h") - 6.35) < 2e-15);
	cr_expect(in(&a, "mm/d") == 6 * 25.4);
	cr_expect(isnan(in(&a, "mm")));
	cr_assert(tarn_measure_divide(&seven, &kgal, &c));
	cr_expect(fabs(in(&c, "money/m3") - 1.98129) < 5e-6);
	cr_assert(tarn_measure_multiply(&a, &d, &c));
	cr_expect(fabs(in(&c, "mm") - 304.8) < 1e-12);
	cr_expect(!tarn_measure_add(&a, &b, &c));
	cr_expect(!tarn_measure_compare(&a, &b, &order));
	cr_expect(!tarn_measure_add(&b, &seven, &c), "4 ft + 7.5");
	cr_assert(tarn_measure_add(&b, &zero, &c));
	cr_expect(in(&c, "m") == 4 * 0.3048);
	cr_assert(tarn_measure_power(&b, 2, &c));
	cr_expect(fabs(in(&c, "m2") - 16 * 0.09290304) < 1e-15);
	cr_assert(tarn_measure_power(&c, 0.5, &c));
	cr_expect(fabs(in(&c, "m") - 1.2192) < 1e-15);
	cr_expect(!tarn_measure_power(&b, 0.1, &c));
	cr_expect(!tarn_measure_power(&b, 22, &c));
	cr_expect(!tarn_measure_power(&b, TARN_NAN, &c));
	cr_assert(tarn_measure_power(&b, 20, &c));
	cr_expect(!tarn_measure_multiply(&c, &c, &a), "m^40");
	cr_expect(!tarn_measure_divide(&seven, &c, &a) ||
		  !tarn_measure_divide(&a, &c, &a), "m^-40");
}

static unsigned long long seed = 20261129;

static unsigned roll(unsigned most)
{
	seed = seed * 6364136223846793005ULL + 1442695040888963407ULL;
	return (unsigned)(seed >> 33) % most;
}

static double in_si_of(const struct tarn_measure *m)
{
	struct tarn_dimension si = m->unit;

	si.num = si.den = 1;
	return tarn_measure_in(m, &si);
}

/* Two random measures: sums commute and come back, products and quotients
 * undo each other, in whatever units; and the numbers are those of plain
 * arithmetic in SI. */
Test(measure, random_arithmetic)
{
	size_t count, sums = 0;
	const struct tarn_unit *units = tarn_units(&count);

	for (int i = 0; i < 20000; i++) {
		struct tarn_measure a = of(1 + roll(999) / 7.0,
					   units[roll((unsigned)count)].name);
		struct tarn_measure b = of(1 + roll(999) / 9.0,
					   units[roll((unsigned)count)].name);
		struct tarn_measure c, d, e;
		double x = in_si_of(&a), y = in_si_of(&b);
		int alike = tarn_dimension_alike(&a.unit, &b.unit), order;

		cr_assert(tarn_measure_add(&a, &b, &c) == alike);
		cr_assert(tarn_measure_compare(&a, &b, &order) == alike);
		if (alike) {
			cr_assert(tarn_measure_add(&b, &a, &d));
			cr_assert(c.number == d.number);
			cr_assert(fabs(in_si_of(&c) / (x + y) - 1) < 1e-15);
			cr_assert(fabs(x / y - 1) < 1e-15 ||
				  order == (x > y) - (x < y));
			sums++;
		}
		cr_assert(tarn_measure_multiply(&a, &b, &c));
		cr_assert(fabs(in_si_of(&c) / (x * y) - 1) < 1e-15);
		cr_assert(tarn_measure_divide(&c, &b, &d));
		cr_assert(tarn_dimension_alike(&d.unit, &a.unit));
		cr_assert(fabs(in_si_of(&d) / x - 1) < 2e-15);
		cr_assert(tarn_measure_power(&a, 3, &c));
		cr_assert(tarn_measure_multiply(&a, &a, &d));
		cr_assert(tarn_measure_multiply(&d, &a, &e));
		cr_assert(tarn_dimension_alike(&c.unit, &e.unit));
		cr_assert(fabs(in_si_of(&c) / in_si_of(&e) - 1) < 2e-15);
	}
	cr_expect(sums > 1000, "%zu", sums);
}

/* ---- the reader --------------------------------------------------------------- */

/* Sets one field of a new design to a number with a unit. */
static enum tarn_status set(const char *path, double x, const char *unit,
			    double *out, struct tarn_error *err)
{
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_measure m = of(x, unit);
	struct tarn_value v = { .kind = TARN_VALUE_NUMBER, .number = m.number,
				.unit = &m.unit };
	enum tarn_status status = tarn_fields_set(&tarn_design_fields, d, path,
						  &v, NULL, err);

	if (status == TARN_OK)
		tarn_design_get(d, path, out, NULL);
	tarn_design_free(d);
	return status;
}

Test(measure, fields_take_any_unit_of_their_dimension)
{
	static const struct {
		const char *path;
		double x;
		const char *unit;
		double want;	/* by hand, in the field's unit */
	} rows[] = {
		{ "storm.intensity", 6, "inch_per_day", 6.35 },
		{ "storm.intensity", 6, "inch_per_hour", 152.4 },
		{ "seepage.rate", 1, "inch_per_hour", 609.6 },
		{ "seepage.rate", 3, "mm_per_day", 3 },
		{ "bed.loading", 0.5, "inch_per_hour", 0.3048 },
		{ "treatment.k", 1, "m_per_day", 365 },
		{ "pump.hours", 1, "minute", 1 / 60.0 },
		{ "tank.first_flush", 1, "cm", 10 },
		{ "evaporation.default_wind", 3.6, "kmh", 1 },
		{ "storm.years", 365, "day", 1 },
		{ "overflow_level", 3, "ft", 0.9144 },
		{ "pump.watts", 0.5, "kW", 500 },
		{ "bed.porosity", 35, "percent", 0.35 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_error err = { 0 };
		double x = TARN_NAN;

		cr_expect(set(rows[i].path, rows[i].x, rows[i].unit, &x, &err) ==
			  TARN_OK, "%s: %s", rows[i].path, err.text);
		cr_expect(fabs(x - rows[i].want) <= 4e-16 * rows[i].want,
			  "%s: %.17g", rows[i].path, x);
	}
}

/* One field of each kind, and a unit of each other. */
Test(measure, other_dimensions_are_refused)
{
	static const struct { const char *path, *unit; } fields[] = {
		{ "overflow_level", "ft" }, { "edges", "ft2" }, { "bed.volume", "gal" },
		{ "storm.duration", "hour" }, { "pump.flow", "gph" },
		{ "seepage.rate", "inch_per_day" }, { "fish.mass", "lb" },
		{ "pump.watts", "watt" }, { "bed.porosity", "percent" },
		{ "pump.hours", "hour" }, { "storm.intensity", "mph" },
		{ "costs.water", "" }, { "water.temp", "" },
		{ "build.underlay_layers", "" }, { "bed.clogging", "" },
		{ "treatment.ammonia", "" }, { "costs.power", "" },
	};
	size_t count, refused = 0;
	const struct tarn_unit *units = tarn_units(&count);

	for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
		for (size_t k = 0; k < count; k++) {
			struct tarn_error err = { 0 };
			struct tarn_measure own = tarn_measure_plain(1), m;
			double x;

			tarn_measure_unit(units[k].name, &m);
			if (fields[i].unit[0])
				tarn_measure_unit(fields[i].unit, &own);
			if (strcmp(units[k].name, "percent") == 0 ||
			    (fields[i].unit[0] &&
			     tarn_dimension_alike(&own.unit, &m.unit)))
				continue;
			cr_expect(set(fields[i].path, 1, units[k].name, &x,
				      &err) == TARN_EARG, "%s takes %s",
				  fields[i].path, units[k].name);
			cr_expect(err.mistake == TARN_MISTAKE_UNIT, "%s %s: %s",
				  fields[i].path, units[k].name, err.text);
			cr_expect_str_eq(err.field, fields[i].path);
			refused++;
		}
	cr_expect(refused > 700, "%zu", refused);
}

Test(measure, lists_carry_units_too)
{
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_values *values = tarn_values_new(NULL);
	struct tarn_value *list = tarn_values_add(values, NULL, NULL);
	struct tarn_measure gph = of(1000, "gph"), ft = of(6, "ft"), h =
		of(30, "minute");
	struct tarn_error err = { 0 };
	struct tarn_value *pair = tarn_values_add(values, list, NULL);
	struct tarn_value *e = tarn_values_add(values, pair, NULL);
	double x;

	list->kind = pair->kind = TARN_VALUE_TABLE;
	e->number = gph.number;
	e->unit = &gph.unit;
	e = tarn_values_add(values, pair, NULL);
	e->number = ft.number;
	e->unit = &ft.unit;
	cr_expect(tarn_fields_set(&tarn_design_fields, d, "pump.curve", list,
				  NULL, &err) == TARN_OK, "%s", err.text);
	tarn_design_get(d, "pump.curve[1][2]", &x, NULL);
	cr_expect(fabs(x - 1.8288) < 1e-15);
	e->unit = &gph.unit;
	cr_expect(tarn_fields_set(&tarn_design_fields, d, "pump.curve", list,
				  NULL, &err) == TARN_EARG);
	cr_expect(err.mistake == TARN_MISTAKE_UNIT);
	cr_expect_str_eq(err.field, "pump.curve[1]");
	list = tarn_values_add(values, NULL, NULL);
	list->kind = TARN_VALUE_TABLE;
	for (int i = 0; i < 12; i++) {
		e = tarn_values_add(values, list, NULL);
		e->number = h.number;
		e->unit = i == 11 ? &ft.unit : &h.unit;
	}
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_fields_set(&tarn_design_fields, d, "pump.hours", list,
				  NULL, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "pump.hours[12]");
	e->unit = &h.unit;
	cr_expect(tarn_fields_set(&tarn_design_fields, d, "pump.hours", list,
				  NULL, NULL) == TARN_OK);
	tarn_design_get(d, "pump.hours[12]", &x, NULL);
	cr_expect(x == 0.5, "%.17g", x);
	tarn_values_free(values);
	tarn_design_free(d);
}

/* A table of values: length 24, width 4.2672 m that was 14 ft. */
Test(measure, bare_numbers_are_noted)
{
	struct tarn_values *values = tarn_values_new(NULL);
	struct tarn_value *table = tarn_values_add(values, NULL, NULL);
	struct tarn_measure width = of(14, "ft");
	struct tarn_shelved shape = tarn_shelved_default();
	static struct tarn_bare_list bare;
	struct tarn_error err = { 0 };
	static const char *const names[] = { "length", "width", "depth" };
	struct tarn_value *v[3];
	char room[32];

	table->kind = TARN_VALUE_TABLE;
	for (int i = 0; i < 3; i++) {
		v[i] = tarn_values_add(values, table, names[i]);
		v[i]->number = i == 1 ? width.number : i == 0 ? 24 : 1;
	}
	cr_expect(tarn_fields_read_noting(&tarn_shelved_fields, &shape, "basin",
					  table, NULL, NULL, NULL, &bare,
					  &err) == TARN_OK);
	cr_expect(bare.count == 0, "all in SI");
	v[1]->unit = &width.unit;
	cr_expect(tarn_fields_read_noting(&tarn_shelved_fields, &shape, "basin",
					  table, NULL, NULL, NULL, &bare,
					  &err) == TARN_OK);
	cr_assert(bare.count == 2);
	cr_expect_str_eq(bare.bare[0].path, "basin.length");
	cr_expect_str_eq(bare.bare[0].beside, "basin.width");
	cr_expect_str_eq(bare.bare[0].unit, "m");
	cr_expect(bare.bare[0].value == 24 && !bare.bare[0].price);
	cr_expect_str_eq(bare.bare[1].path, "basin.depth");
	tarn_values_free(values);
	cr_expect_str_eq(tarn_field_unit(tarn_fields_find(
				&tarn_shelved_fields, "length"), 1, room), "m");
}

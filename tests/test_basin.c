/* SPDX-License-Identifier: MIT */
#include "published.h"
#include "tarn/pond.h"

static struct tarn_basin *table(const double *level, const double *area,
				size_t n)
{
	struct tarn_basin *b;
	struct tarn_error err = { 0 };

	cr_assert(tarn_basin_table(&b, NULL, level, area, n, &err) == TARN_OK,
		  "%s", err.text);
	return b;
}

static struct tarn_basin *shelved(const struct tarn_shelved *s)
{
	struct tarn_basin *b;
	struct tarn_error err = { 0 };

	cr_assert(tarn_basin_shelved(&b, NULL, s, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	return b;
}

static struct tarn_shelved tape(int shape, double l, double w, double d,
				double slope)
{
	struct tarn_shelved s = tarn_shelved_default();

	s.shape = shape;
	s.length_m = l;
	s.width_m = w;
	s.depth_m = d;
	s.side_slope = slope;
	return s;
}

/* A volume that a handbook describes. */
Test(basin, volume_of_an_excavated_pond)
{
	/* Soil Conservation Service Agriculture Handbook 590, excavated pond
	 * (from memory): bottom 40 x 100 ft, 12 ft deep; here with 2 to 1 on
	 * all sides, prismoidal formula by hand: A = 88 x 148, 4B = 4 x 64 x
	 * 124, C = 4000 ft2; 12 / 6 x 48768 = 97536 ft3 */
	struct tarn_shelved s = tape(TARN_RECTANGLE, 148 * 0.3048, 88 * 0.3048,
				     12 * 0.3048, 2);
	struct tarn_basin *b = shelved(&s);

	cr_expect(fabs(tarn_basin_volume(b, tarn_basin_top(b)) /
			       tarn_unit("ft3") / 97536 - 1) < 1e-4);
	tarn_basin_free(b);
}

/* Formulas that hold exactly, with shelves, by hand. */
Test(basin, shelves_by_hand)
{
	struct tarn_shelved s = tape(TARN_RECTANGLE, 5, 4, 1.2, 0);
	struct tarn_basin *b;

	s.shelves = 2;
	s.shelf[0] = (struct tarn_shelf){ 0.2, 0.3 };
	s.shelf[1] = (struct tarn_shelf){ 0.6, 0.4 };
	b = shelved(&s);
	/* floor 3.6 x 2.6, from 0.6 m up 4.4 x 3.4, from 1.0 m up 5 x 4 */
	cr_expect(fabs(tarn_basin_area(b, 0.3) - 9.36) < 1e-12);
	cr_expect(fabs(tarn_basin_area(b, 0.8) - 14.96) < 1e-12);
	cr_expect(fabs(tarn_basin_area(b, 1.2) - 20) < 1e-12);
	cr_expect(fabs(tarn_basin_volume(b, 1.2) -
		       (9.36 * 0.6 + 14.96 * 0.4 + 20 * 0.2)) < 1e-12);
	cr_expect(fabs(tarn_basin_level(b, 9.36 * 0.6 + 14.96 * 0.1) - 0.7) <
		  1e-12);
	cr_expect(tarn_basin_scale(b) == 1);
	tarn_basin_free(b);

	/* a meter says a tenth less than the tape: areas follow */
	s.metered_m3 = 0.9 * (9.36 * 0.6 + 14.96 * 0.4 + 20 * 0.2);
	b = shelved(&s);
	cr_expect(fabs(tarn_basin_scale(b) - 0.9) < 1e-12);
	cr_expect(fabs(tarn_basin_volume(b, 1.2) - s.metered_m3) < 1e-12);
	cr_expect(fabs(tarn_basin_area(b, 1.2) - 18) < 1e-12);
	tarn_basin_free(b);

	s = tape(TARN_ELLIPSE, 4, 3, 1, 0);
	b = shelved(&s);
	cr_expect(fabs(tarn_basin_volume(b, 1) - 3 * acos(-1.0)) < 1e-12);
	tarn_basin_free(b);

	/* cone frustum pi h / 12 (D^2 + D d + d^2), D 4 d 2 h 1 */
	s = tape(TARN_ELLIPSE, 4, 4, 1, 1);
	b = shelved(&s);
	cr_expect(fabs(tarn_basin_volume(b, 1) / (acos(-1.0) / 12 * 28) - 1) <
		  1e-4);
	tarn_basin_free(b);

	s = tape(TARN_IRREGULAR, 4, 3, 1, 0);
	s.area_factor = 0.8;
	b = shelved(&s);
	cr_expect(fabs(tarn_basin_volume(b, 1) - 9.6) < 1e-12);
	tarn_basin_free(b);
}

Test(basin, floor_and_top)
{
	static const double level[] = { 0.25, 0.5, 1.5 }, area[] = { 1, 2, 3 };
	struct tarn_basin *b = table(level, area, 3);

	cr_expect(tarn_basin_floor(b) == 0.25 && tarn_basin_top(b) == 1.5);
	cr_expect(isnan(tarn_basin_area(b, 0.2499)));
	cr_expect(isnan(tarn_basin_area(b, 1.5001)));
	tarn_basin_free(b);
}

Test(basin, volume_and_level_are_inverse)
{
	static const double level[] = { 0.1, 0.13, 0.5, 0.50001, 1.7, 2.05 };
	static const double area[] = { 0, 3.7, 3.7, 11.3, 24.1, 31.7 };
	struct tarn_basin *b = table(level, area, 6);
	double top = tarn_basin_volume(b, 2.05), worst = 0, last = -1;

	for (int i = 0; i <= 100000; i++) {
		double h = 0.1 + (2.05 - 0.1) * i / 100000;
		double v = tarn_basin_volume(b, h);

		worst = fmax(worst, fabs(tarn_basin_level(b, v) - h) / h);
		cr_assert(v > last, "volume rises with level at %g m", h);
		last = v;
		v = top * i / 100000;
		h = fmin(fmax(tarn_basin_level(b, v), 0.1), 2.05);
		worst = fmax(worst, fabs(tarn_basin_volume(b, h) - v) / top);
	}
	cr_expect(worst < 1e-12, "worst %g", worst);
	cr_expect(isnan(tarn_basin_volume(b, 0.0999)));
	cr_expect(isnan(tarn_basin_area(b, 2.0501)));
	cr_expect(isnan(tarn_basin_area(b, TARN_NAN)));
	cr_expect(isnan(tarn_basin_level(b, -1e-9)));
	cr_expect(isnan(tarn_basin_level(b, top * 1.0001)));
	cr_expect(isnan(tarn_basin_level(b, TARN_NAN)));
	cr_expect(tarn_basin_level(b, 0) == 0.1);
	tarn_basin_free(b);
}

Test(basin, doubling_areas_doubles_volumes)
{
	static const double level[] = { 0, 0.4, 1, 1.3 };
	double area[] = { 2.3, 5.7, 9.1, 14.3 };
	struct tarn_basin *one = table(level, area, 4), *two;

	for (int i = 0; i < 4; i++)
		area[i] *= 2;
	two = table(level, area, 4);
	for (double h = 0; h <= 1.3; h += 0.01) {
		double v = tarn_basin_volume(one, h);

		cr_expect(fabs(tarn_basin_volume(two, h) - 2 * v) <= 1e-13 * v,
			  "at %g m", h);
	}
	tarn_basin_free(one);
	tarn_basin_free(two);
}

/*
 * Three Wisconsin lakes, USGS gauges, published by the CSLS project (MIT):
 * daily area and volume were taken from the survey table by linear
 * interpolation.  The table's area must give back every published area; the
 * volume that follows from it is our own integral and is compared with the
 * survey's own volumes.
 */
#define LAKE_ROWS 700

static size_t read_lake(const char *lake, double *level, double *area,
			double *volume)
{
	FILE *f = fopen("weather-samples/csls_elev_area_vol.csv", "r");
	char line[200], name[32];
	size_t n = 0;
	double h, a, v;

	cr_assert(f != NULL, "run the tests from the project's folder");
	while (fgets(line, sizeof line, f))
		if (sscanf(line, "%31[^,],%lf,%lf,%lf", name, &h, &a, &v) == 4 &&
		    strcmp(name, lake) == 0 && n < LAKE_ROWS) {
			level[n] = h;
			area[n] = a;
			volume[n++] = v;
		}
	fclose(f);
	return n;
}

Test(basin, published_lake_areas)
{
	static const char *const lakes[] = { "Pleasant", "Long", "Plainfield" };
	static double level[LAKE_ROWS], area[LAKE_ROWS], volume[LAKE_ROWS];
	int days = 0;

	for (int k = 0; k < 3; k++) {
		size_t n = read_lake(lakes[k], level, area, volume);
		struct tarn_basin *b = table(level, area, n);
		FILE *f = fopen("weather-samples/csls_lake_levels_daily.csv",
				"r");
		char line[200], name[32];
		double h, a, v, worst = 0, worst_volume = 0;

		while (fgets(line, sizeof line, f)) {
			if (sscanf(line, "\"%31[^\"]\",%*[^,],%*[^,],%lf,%lf,%lf",
				   name, &h, &a, &v) != 4 ||
			    strcmp(name, lakes[k]) != 0)
				continue;
			days++;
			worst = fmax(worst, fabs(tarn_basin_area(b, h) / a - 1));
			worst_volume = fmax(worst_volume,
					    fabs(tarn_basin_volume(b, h) / v - 1));
		}
		fclose(f);
		cr_expect(worst < 1e-12, "CSLS %s: area off by %g", lakes[k],
			  worst);
		/* the survey's volumes come from its terrain model, not from
		 * its table of areas */
		cr_expect(worst_volume < 0.01, "CSLS %s: volume off by %g",
			  lakes[k], worst_volume);
		tarn_basin_free(b);
	}
	cr_expect(days > 2000, "%d days", days);
}

static void refused(const double *level, const double *area, size_t n,
		    const char *part)
{
	struct tarn_basin *b;
	struct tarn_error err = { 0 };

	cr_expect(tarn_basin_table(&b, NULL, level, area, n, &err) == TARN_EARG);
	cr_expect(b == NULL && strstr(err.text, part), "'%s' has no '%s'",
		  err.text, part);
}

Test(basin, refuses_bad_tables)
{
	double up[] = { 0, 0.5, 1 }, flat[] = { 0, 0.5, 0.5 };
	double area[] = { 1, 2, 3 }, shrink[] = { 1, 3, 2 };
	double zero[] = { 0, 0, 1 }, minus[] = { -1, 2, 3 };
	double nothing[] = { 1, TARN_NAN, 3 };

	refused(flat, area, 3, "row 3: levels must rise");
	refused(up, shrink, 3, "row 3: area must not shrink");
	refused(up, zero, 3, "row 2: area must be above 0");
	refused(up, minus, 3, "row 1: area must be above 0");
	refused(up, nothing, 3, "row 2: level or area is not a number");
	refused(up, area, 1, "needs 2 to");
}

static void refused_shape(struct tarn_shelved s, const char *field,
			  const char *part)
{
	struct tarn_basin *b;
	struct tarn_error err = { 0 };

	cr_expect(tarn_basin_shelved(&b, NULL, &s, &err) == TARN_EARG);
	cr_expect(b == NULL);
	cr_expect_str_eq(err.field, field);
	cr_expect(strstr(err.text, part), "'%s' has no '%s'", err.text, part);
}

Test(basin, refuses_bad_shapes)
{
	struct tarn_shelved s = tape(TARN_RECTANGLE, 3, 2, 1, 0);

	refused_shape(tape(TARN_RECTANGLE, 3, 2, -1, 0), "basin.depth",
		      "must be 0.05 to 15 m, got -1");
	refused_shape(tape(TARN_RECTANGLE, 3, TARN_NAN, 1, 0), "basin.width",
		      "is missing");
	refused_shape(tape(TARN_RECTANGLE, 3, 2, 1, 1), "basin",
		      "meet before the floor");
	refused_shape(tape(TARN_IRREGULAR, 3, 2, 1, 0), "basin.area_factor",
		      "is missing");
	s.area_factor = 0.8;
	refused_shape(s, "basin.area_factor", "irregular");
	s = tape(TARN_ELLIPSE, 3, 2, 1, 0);
	s.shelves = 2;
	s.shelf[0] = (struct tarn_shelf){ 0.5, 0.2 };
	s.shelf[1] = (struct tarn_shelf){ 0.4, 0.2 };
	refused_shape(s, "basin.shelves", "shelf 2: depth must lie between");
	s.shelf[1] = (struct tarn_shelf){ 1, 0.2 };
	refused_shape(s, "basin.shelves", "shelf 2: depth must lie between");
	s.shelf[1] = (struct tarn_shelf){ 0.6, 0 };
	refused_shape(s, "basin.shelves", "shelf 2: width must be above 0");
	s.shelves = 99;
	refused_shape(s, "basin.shelves", "at most 16");
}

Test(basin, polygon_area)
{
	/* an L of 3 x 2 less a corner of 1 x 1, either way round */
	static const double xy[] = { 0, 0, 3, 0, 3, 1, 2, 1, 2, 2, 0, 2 };
	static const double back[] = { 0, 2, 2, 2, 2, 1, 3, 1, 3, 0, 0, 0 };

	cr_expect(fabs(tarn_polygon_area(xy, 6) - 5) < 1e-14);
	cr_expect(fabs(tarn_polygon_area(back, 6) - 5) < 1e-14);
	cr_expect(isnan(tarn_polygon_area(xy, 2)));
}

/* ---- runoff ------------------------------------------------------------ */

Test(runoff, laws_and_ends)
{
	double last = 0;

	for (double p = 0; p < 300; p += 0.7) {
		double q = tarn_runoff(p, 75);

		cr_expect(q >= last && q <= p, "P %g", p);
		last = q;
	}
	cr_expect(tarn_runoff(37.3, 100) == 37.3);
	cr_expect(tarn_runoff(0.2 * 25.4 * (1000.0 / 75 - 10), 75) < 1e-20);
	cr_expect(isnan(tarn_runoff(-0.1, 75)));
	cr_expect(isnan(tarn_runoff(10, 0.9)));
	cr_expect(isnan(tarn_runoff(10, 100.1)));
	cr_expect(isnan(tarn_runoff(TARN_NAN, 75)));
	cr_expect(isnan(tarn_runoff(HUGE_VAL, 75)));
}

/* USDA TR-55 (1986) Table 2-1, as transcribed in an open data package; half
 * the last printed digit. */
#define TR55 "USDA TR-55 (1986) table 2-1"
Test(runoff, published_table)
{
	FILE *f = fopen("tests/data/tr55_table_2_1.csv", "r");
	char line[100];
	double p, cn, q;
	int rows = 0;

	cr_assert(f != NULL, "run the tests from the project's folder");
	while (fgets(line, sizeof line, f)) {
		if (sscanf(line, "%lf,%lf,%lf", &p, &cn, &q) != 3)
			continue;
		rows++;
		quoted(TR55, named("P %g in, CN %g", p, cn),
		       tarn_runoff(p * 25.4, cn) / 25.4, q, 0.0055);
	}
	fclose(f);
	cr_expect(rows > 200, "%d rows", rows);
	not_reproduced(TR55, "P 7 in, CN 50", tarn_runoff(7 * 25.4, 50) / 25.4,
		       1.68, 0.0055, "the equation gives 25 / 15 = 1.667: a "
		       "slip of print or of transcription");
}

Test(runoff, published_examples)
{
	static const struct {
		double p_in, cn, want_in, tol;
		const char *source;
	} rows[] = {
		{ 5.1, 75, 2.53, 0.005, "NRCS NEH-630 chapter 10 example" },
	};
	/* initial abstraction, TR-55 Table 4-1 */
	static const struct {
		double cn, ia_in;
	} ia[] = { { 40, 3.0 }, { 50, 2.0 }, { 60, 1.333 }, { 65, 1.077 } };

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		quoted(rows[i].source, named("P %g in", rows[i].p_in),
		       tarn_runoff(rows[i].p_in * 25.4, rows[i].cn) / 25.4,
		       rows[i].want_in, rows[i].tol);
	for (size_t i = 0; i < sizeof ia / sizeof ia[0]; i++) {
		cr_expect(tarn_runoff((ia[i].ia_in - 0.0006) * 25.4,
				      ia[i].cn) == 0,
			  "TR-55 Table 4-1, CN %g", ia[i].cn);
		cr_expect(tarn_runoff((ia[i].ia_in + 0.0006) * 25.4,
				      ia[i].cn) > 0,
			  "TR-55 Table 4-1, CN %g", ia[i].cn);
	}
}

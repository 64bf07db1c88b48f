/* SPDX-License-Identifier: MIT */
#include <stdio.h>
#include <string.h>

#include "published.h"
#include "study_world.h"

/* A column by the path of a description gives what a description with its
 * number gives, to the last bit. */

enum { DAYS = 800 };

/* Two years of a station's readings, made up. */
static struct tarn_weather *make_weather(void)
{
	static char text[DAYS * 60];
	struct tarn_weather *w = NULL;
	struct tarn_error err = { 0 };
	uint64_t seed = 7;
	int n = sprintf(text, "date,tmin_c,tmax_c,rh_pct,wind_ms,rain_mm,"
			"solar_mj_m2\n");

	for (long i = 0; i < DAYS; i++) {
		double summer = 0.5 - 0.5 * cos((double)(i % 365) / 58.09);
		double wet = world_random(&seed);
		char date[11];

		tarn_day_text(tarn_day(2013, 1, 1) + i, date);
		n += sprintf(text + n, "%s,%.1f,%.1f,%.0f,%.1f,%.1f,%.1f\n",
			     date, 2 + 10 * summer, 8 + 18 * summer,
			     40 + 40 * world_random(&seed),
			     1 + 3 * world_random(&seed),
			     wet < 0.25 ? 40 * wet : 0, 3 + 20 * summer);
	}
	tarn_weather_read_text(&w, NULL, text, (size_t)n, NULL, NULL, &err);
	cr_assert(w != NULL, "%s", err.text);
	return w;
}

#define REST \
	"\"overflow_level\": 0.9, \"trigger\": 0.8, \"target\": 0.82, \"intake\": 0.4," \
	"\"edges\": 2, \"splash\": 1e-7," \
	"\"stream\": { \"length\": 3, \"width\": 0.4, \"slope\": 0.05," \
	"             \"manning\": 0.035 }," \
	"\"apron\": { \"area\": 10, \"coefficient\": 0.5 }," \
	"\"seepage\": { \"rate\": 1, \"volume\": 1e-8, \"per_head\": 1e-9 }," \
	"\"supply\": { \"rate\": 1e-4, \"months\": [4, 5, 6, 7, 8, 9] }," \
	"\"tank\": { \"capacity\": 2, \"roof\": 40, \"first_flush\": 0.5," \
	"          \"start\": 1 }," \
	"\"withdrawals\": [ { \"volume\": 0.05, \"weekdays\": [\"sat\"] } ]," \
	"\"evaporation\": { \"latitude\": 47, \"elevation\": 50," \
	"                 \"wind_height\": 10 }," \
	"\"costs\": { \"currency\": \"EUR\", \"water\": 2 }," \
	"\"falls\": [ { \"bed\": true, \"width\": 0.6, \"drop\": 0.1 }," \
	"           { \"width\": 0.5, \"drop\": 0.1, \"pool\": 0.3 } ]," \
	"\"overflow\": { \"width\": 0.5 }," \
	"\"bay\": { \"width\": 0.5, \"sill\": 0.2, \"pump_minimum\": 0.3 }," \
	"\"storm\": { \"intensity\": 40 }," \
	"\"catchments\": [ { \"area\": 20, \"coefficient\": 0.9 } ]," \
	"\"yard\": { \"corners\": [ { \"x\": 0, \"y\": 0 }, { \"x\": 9," \
	"  \"y\": 0 }, { \"x\": 9, \"y\": 9 } ], \"setbacks\": [1, 1, 1]," \
	"          \"footings\": [1, 1, 1] }," \
	"\"pump\": { \"hours\": [24,24,24,24,24,24,24,24,24,24,0,0]," \
	"          \"curve\": [ [0, 4], [0.001, 3], [0.003, 0] ] }," \
	"\"pipes\": [ { \"to\": \"bed\", \"diameter\": 0.04, \"length\": 6," \
	"             \"lift\": 0.6, \"siphon\": 0.05," \
	"             \"fittings\": { \"ball valve\": 1 } } ],"
#define LAYERS \
	"\"bed\": { \"area\": 6, \"cover\": 0.05, \"layers\": [" \
	"  { \"thickness\": 0.4, \"porosity\": 0.4, \"diameter\": 0.02 }," \
	"  { \"thickness\": 0.2, \"porosity\": 0.35, \"diameter\": 0.01 } ] }"
#define SHAPE \
	"\"basin\": { \"shape\": \"irregular\", \"length\": 6, \"width\": 4," \
	"  \"depth\": 1.1, \"area_factor\": 0.8, \"side_slope\": 0.2," \
	"  \"metered\": 14, \"shelves\": [ { \"depth\": 0.3, \"width\": 0.3 }" \
	"  ] }"
#define CONTOURS \
	"\"basin\": { \"contours\": [" \
	"  { \"level\": 0, \"points\": [[0,0],[3,0],[3,3],[0,3]] }," \
	"  { \"level\": 0.6, \"points\": [[0,0],[4,0],[4,4],[0,4]] }," \
	"  { \"level\": 1.1, \"points\": [[0,0],[5,0],[5,4],[0,4]] } ] }"
#define TABLE \
	"\"basin\": { \"table\": [[0, 6], [0.5, 12], [1.1, 20]] }"

static struct tarn_design *read_text(const char *text)
{
	struct tarn_design *d;
	struct tarn_error err = { 0 };

	tarn_design_read_json(&d, NULL, text, strlen(text), &err);
	cr_assert(d != NULL, "%s %s", err.field, err.text);
	return d;
}

/* ---- runs ------------------------------------------------------------------- */

struct trial {
	struct tarn_weather *weather;
	double *open, *grass;
	struct tarn_resolved r;
	struct tarn_forcing forcing;
	struct tarn_study study;
	double value[TARN_QUANTITIES];
};

/* What is described, resolved and run; 0 if it is refused. */
static int prepare(struct trial *t, const struct tarn_design *d)
{
	struct tarn_weather *w = t->weather;
	struct tarn_run_options o = tarn_run_options_default();
	struct tarn_error err = { 0 };
	size_t bytes = tarn_weather_days(w) * sizeof *t->open;
	struct tarn_sky sky;

	if (tarn_design_resolve(d, &t->r, &err) != TARN_OK)
		return 0;
	if (tarn_sky_make(&sky, NULL, w, &t->r, &o, &err) != TARN_OK) {
		tarn_resolved_free(&t->r);
		return 0;
	}
	memcpy(t->open, sky.forcing.open_water_mm, bytes);
	memcpy(t->grass, sky.forcing.grass_mm, bytes);
	tarn_sky_free(&sky);
	t->forcing = (struct tarn_forcing){
		tarn_weather_first(w), tarn_weather_days(w),
		tarn_weather_column(w, TARN_RAIN), t->open, t->grass, NULL };
	t->study = tarn_study_default();
	t->study.ponds = &t->r.pond;
	t->study.weathers = &t->forcing;
	t->study.skip_bad = 1;
	return 1;
}

static enum tarn_status run(struct trial *t, struct tarn_error *err)
{
	struct tarn_study_rows rows = { .count = 1 };

	for (int q = 0; q < TARN_QUANTITIES; q++) {
		rows.value[q] = &t->value[q];
		t->value[q] = 0;
	}
	return tarn_study_run(&t->study, &rows, err);
}

/* The row of a design with one column. */
static enum tarn_status run_column(struct trial *t,
				   const struct tarn_design *base,
				   const char *path,
				   enum tarn_study_change change, double x,
				   struct tarn_error *err)
{
	struct tarn_study_sky sky = { t->weather, TARN_METHODS };
	struct tarn_study_column column = { path, change, &x };
	enum tarn_status status;

	cr_assert(prepare(t, base), "the base must be sound");
	t->study.designs = &base;
	t->study.skies = &sky;
	t->study.columns = &column;
	t->study.column_count = 1;
	status = run(t, err);
	tarn_resolved_free(&t->r);
	return status;
}

static int run_written(struct trial *t, const struct tarn_design *base,
		       const char *path, double x)
{
	struct tarn_design *d = tarn_design_copy(base);
	int good = tarn_design_set(d, path, x, NULL) == TARN_OK &&
		   prepare(t, d);

	if (good) {
		cr_assert(run(t, NULL) == TARN_OK);
		tarn_resolved_free(&t->r);
	}
	tarn_design_free(d);
	return good;
}

/* ---- each number -------------------------------------------------------------- */

struct sweep {
	const struct tarn_design *base;
	struct trial written, column;
	const char *only;	/* section, or "" */
	int tried, good, moved;
	double plain[TARN_QUANTITIES];
};

static void compare(struct sweep *s, const char *path, double x, int good)
{
	struct tarn_error err = { 0 };
	enum tarn_status status = run_column(&s->column, s->base, path,
					     TARN_SET, x, &err);

	cr_expect(status == TARN_OK, "%s: %s %s", path, err.field, err.text);
	s->tried++;
	if (!good) {
		cr_expect(isnan(s->column.value[TARN_Q_TOPUP]),
			  "%s = %g: refused where written, run as a column",
			  path, x);
		return;
	}
	s->good++;
	s->moved += memcmp(s->plain, s->written.value, sizeof s->plain) != 0;
	cr_expect(memcmp(s->column.value, s->written.value,
			 sizeof s->plain) == 0, "%s = %g: top-up %.17g as a "
		  "column, %.17g written; overflow %.17g, %.17g", path, x,
		  s->column.value[TARN_Q_TOPUP],
		  s->written.value[TARN_Q_TOPUP],
		  s->column.value[TARN_Q_OVERFLOW],
		  s->written.value[TARN_Q_OVERFLOW]);
}

/* Another number than the base's, one that makes a sound pond if any does. */
static double another(struct sweep *s, const struct tarn_field *row,
		      const char *path, int *good)
{
	static const double numbers[] = {
		0.01, 0.1, 0.3, 0.5, 1, 2, 5, 20, 80, 500, 3000, 1e-6, 1e5
	};
	double base = 0, last = TARN_NAN;

	tarn_design_get(s->base, path, &base, NULL);
	for (int i = -3; i < 13; i++) {
		double x = i == -3 ? base * 0.98 : i == -2 ? base * 1.02
			 : i == -1 ? row->lo : numbers[i];

		if (!(x >= row->lo && x <= row->hi) || !isfinite(x) ||
		    !(x < base || x > base || isnan(base)))
			continue;
		last = x;
		*good = run_written(&s->written, s->base, path, x);
		if (*good)
			return x;
	}
	return last;
}

static void sweep_row(void *context, const char *row_path,
		      const struct tarn_field *row)
{
	struct sweep *s = context;
	const char *index = row->kind == TARN_FIELD_NUMBERS ? "[1]"
			  : row->kind == TARN_FIELD_PAIRS ? "[2][2]" : "";
	char path[128];
	double x;
	int good = 0;

	if (row->kind != TARN_FIELD_NUMBER && row->kind != TARN_FIELD_MONTHS &&
	    !index[0])
		return;
	snprintf(path, sizeof path, "%s%s", row_path, index);
	if (strncmp(path, s->only, strlen(s->only)) != 0 ||
	    tarn_design_get(s->base, path, &x, NULL) != TARN_OK)
		return;
	x = another(s, row, path, &good);
	if (isnan(x))
		return;
	compare(s, path, x, good);
}

static void sweep(struct sweep *s, const char *text, const char *only,
		  const char *method)
{
	struct tarn_design *d = read_text(text);
	struct trial *t[2] = { &s->written, &s->column };
	struct tarn_weather *w = make_weather();
	static double room[4][DAYS];

	for (int i = 0; i < 2; i++) {
		t[i]->weather = w;
		t[i]->open = room[2 * i];
		t[i]->grass = room[2 * i + 1];
	}
	cr_assert(tarn_design_set_text(d, "evaporation.method", method, NULL) ==
		  TARN_OK);
	s->base = d;
	s->only = only;
	cr_assert(prepare(&s->written, d));
	cr_assert(run(&s->written, NULL) == TARN_OK);
	tarn_resolved_free(&s->written.r);
	memcpy(s->plain, s->written.value, sizeof s->plain);
	tarn_fields_walk(&tarn_design_fields, sweep_row, s);
	tarn_weather_free(w);
	tarn_design_free(d);
}

Test(study_design, each_number_as_written)
{
	static struct sweep s;

	sweep(&s, "{" REST LAYERS "," SHAPE "}", "", "auto");
	cr_expect(s.tried > 150 && s.good > 130 && s.moved > 50,
		  "%d tried, %d sound, %d moved", s.tried, s.good, s.moved);
}

Test(study_design, basins_of_contours_and_tables)
{
	static struct sweep s, t;

	sweep(&s, "{" REST LAYERS "," CONTOURS "}", "basin.", "auto");
	cr_expect(s.tried >= 8 && s.good >= 1, "%d, %d", s.tried, s.good);
	sweep(&t, "{" REST LAYERS "," TABLE "}", "basin.", "auto");
	cr_expect(t.good >= 1, "%d sound", t.good);
}

Test(study_design, by_methods_that_ask_for_area)
{
	static struct sweep lip, depth, area;

	sweep(&lip, "{" REST LAYERS "," TABLE "}", "overflow_level",
	      "mass_transfer");
	cr_expect(lip.good == 1 && lip.moved == 1);
	sweep(&depth, "{" REST LAYERS "," SHAPE "}", "basin.", "penman_heat");
	cr_expect(depth.good >= 6 && depth.moved >= 5, "%d, %d", depth.good,
		  depth.moved);
	sweep(&area, "{" REST LAYERS "," TABLE "}", "evaporation.area",
	      "mass_transfer");
	cr_expect(area.good == 1 && area.moved == 1);
}

/* ---- what a column replaces, changes, cannot change ------------------------------ */

struct one {
	struct tarn_design *d;
	struct trial a, b;
};

static void open_one(struct one *o, const char *text)
{
	static double room[4][DAYS];

	o->d = read_text(text);
	o->a.weather = o->b.weather = make_weather();
	o->a.open = room[0];
	o->a.grass = room[1];
	o->b.open = room[2];
	o->b.grass = room[3];
}

static void close_one(struct one *o)
{
	tarn_weather_free(o->a.weather);
	tarn_design_free(o->d);
}

#define SIDES \
	"\"bed\": { \"length\": 3, \"width\": 2, \"layers\": [" \
	"  { \"thickness\": 0.4, \"porosity\": 0.4, \"diameter\": 0.02 } ] }"

Test(study_design, an_area_goes_in_place_of_its_sides)
{
	static struct one o;
	struct tarn_design *sized;

	open_one(&o, "{" REST SIDES "," SHAPE "}");
	cr_assert(run_column(&o.a, o.d, "bed.area", TARN_TIMES, 1.5, NULL) ==
		  TARN_OK);
	sized = tarn_design_copy(o.d);
	sized->wish.length_m = sized->wish.width_m = TARN_NAN;
	cr_expect(run_written(&o.b, sized, "bed.area", 9));
	cr_expect(memcmp(o.a.value, o.b.value, sizeof o.a.value) == 0);
	/* and a column of NaN leaves it as it is described */
	cr_assert(run_column(&o.a, o.d, "bed.area", TARN_SET, TARN_NAN,
			     NULL) == TARN_OK);
	cr_expect(run_written(&o.b, o.d, "bed.length", 3));
	cr_expect(memcmp(o.a.value, o.b.value, sizeof o.a.value) == 0);
	tarn_design_free(sized);
	close_one(&o);
}

Test(study_design, what_follows_can_be_changed_by_a_factor)
{
	static struct one o;
	double flow_m3s;

	open_one(&o, "{" REST LAYERS "," SHAPE "}");
	cr_assert(prepare(&o.b, o.d));
	flow_m3s = o.b.r.pond.pump.flow_m3s;
	tarn_resolved_free(&o.b.r);
	cr_assert(run_column(&o.a, o.d, "pump.flow", TARN_TIMES, 0.9, NULL) ==
		  TARN_OK);
	cr_expect(run_written(&o.b, o.d, "pump.flow", flow_m3s * 0.9));
	cr_expect(memcmp(o.a.value, o.b.value, sizeof o.a.value) == 0);
	close_one(&o);
}

/* Two ponds in turn, in two threads: each row is its own pond's. */
Test(study_design, several_ponds)
{
	enum { ROWS = 40 };
	static struct one o, p;
	static double value[ROWS], thick[ROWS], lip[ROWS];
	struct tarn_pond ponds[2];
	const struct tarn_design *designs[2];
	unsigned pond_of[ROWS];
	struct tarn_study_column columns[2] = {
		{ "bed.layers[1].thickness", TARN_SET, thick },
		{ "overflow_level", TARN_PLUS, lip }
	};
	struct tarn_study_rows rows = { .count = ROWS };

	open_one(&o, "{" REST LAYERS "," SHAPE "}");
	open_one(&p, "{" REST SIDES "," CONTOURS "}");
	designs[0] = o.d;
	designs[1] = p.d;
	for (int i = 0; i < ROWS; i++) {
		pond_of[i] = (unsigned)(i / 3 % 2);
		thick[i] = i % 5 ? 0.3 + 0.01 * i : TARN_NAN;
		lip[i] = 0.001 * (i % 7);
	}
	cr_assert(prepare(&p.a, p.d) && prepare(&o.a, o.d));
	ponds[0] = o.a.r.pond;
	ponds[1] = p.a.r.pond;
	o.a.study.ponds = ponds;
	o.a.study.pond_count = 2;
	o.a.study.pond_of = pond_of;
	o.a.study.designs = designs;
	o.a.study.columns = columns;
	o.a.study.column_count = 2;
	o.a.study.variants = ROWS;
	o.a.study.threads = 2;
	rows.value[TARN_Q_TOPUP] = value;
	cr_assert(tarn_study_run(&o.a.study, &rows, NULL) == TARN_OK);
	for (int i = 0; i < ROWS; i++) {
		struct tarn_design *d = tarn_design_copy(designs[pond_of[i]]);

		if (!isnan(thick[i]))
			d->layer[0].thickness_m = thick[i];
		d->pond.overflow_level_m += lip[i];
		cr_assert(prepare(&o.b, d));
		cr_assert(run(&o.b, NULL) == TARN_OK);
		cr_expect(memcmp(&value[i], &o.b.value[TARN_Q_TOPUP],
				 sizeof value[i]) == 0, "row %d", i);
		tarn_resolved_free(&o.b.r);
		tarn_design_free(d);
	}
	tarn_resolved_free(&o.a.r);
	tarn_resolved_free(&p.a.r);
	close_one(&o);
	close_one(&p);
}

enum { ROW_COUNT = 150, ROW_COLUMNS = 4 };

/* Numbers that stay, change and are bad in turn: a length, a pipe, the bed and
 * the seepage. */
static void fill_row(double x[ROW_COLUMNS][ROW_COUNT], int i)
{
	x[0][i] = i % 31 == 30 ? 0.3 : 6 + 0.01 * (i / 4 % 7);
	x[1][i] = i % 13 == 12 ? TARN_NAN : 0.04 + 0.001 * (i / 3 % 2);
	x[2][i] = i % 17 == 16 ? 0.1 : 0.4 + 0.01 * (i / 5 % 3);
	x[3][i] = i % 7;
}

static const char *const row_paths[ROW_COLUMNS] = {
	"basin.length", "pipes[1].diameter", "bed.layers[1].porosity",
	"seepage.rate"
};

static int run_row_written(struct one *o, double x[ROW_COLUMNS][ROW_COUNT],
			   int i)
{
	struct tarn_design *d = tarn_design_copy(o->d);
	int good = 1;

	for (int c = 0; c < ROW_COLUMNS; c++)
		if (!isnan(x[c][i]))
			good &= tarn_design_set(d, row_paths[c], x[c][i],
						NULL) == TARN_OK;
	good = good && prepare(&o->b, d);
	if (good) {
		cr_assert(run(&o->b, NULL) == TARN_OK);
		tarn_resolved_free(&o->b.r);
	}
	tarn_design_free(d);
	return good;
}

static void expect_rows(struct one *o, double x[ROW_COLUMNS][ROW_COUNT],
			const double *topup, const double *low, size_t *bad)
{
	for (int i = 0; i < ROW_COUNT; i++) {
		if (!run_row_written(o, x, i)) {
			++*bad;
			cr_expect(isnan(topup[i]), "row %d runs", i);
			continue;
		}
		cr_expect(memcmp(&topup[i], &o->b.value[TARN_Q_TOPUP],
				 sizeof *topup) == 0, "row %d", i);
		cr_expect(memcmp(&low[i], &o->b.value[TARN_Q_LOWEST_LEVEL],
				 sizeof *low) == 0, "row %d", i);
	}
}

/* Stages that a row leaves alone are the last row's, basins stand side by side
 * in a block: no row may tell. */
static void rows_in_turn(int threads)
{
	static struct one o;
	static double x[ROW_COLUMNS][ROW_COUNT], topup[ROW_COUNT];
	static double low[ROW_COUNT];
	struct tarn_study_column columns[ROW_COLUMNS];
	struct tarn_study_rows rows = { .count = ROW_COUNT };
	const struct tarn_design *base;
	struct tarn_error err = { 0 };
	size_t bad = 0;

	open_one(&o, "{" REST LAYERS "," SHAPE "}");
	cr_assert(prepare(&o.a, o.d));
	for (int i = 0; i < ROW_COUNT; i++)
		fill_row(x, i);
	for (int c = 0; c < ROW_COLUMNS; c++)
		columns[c] = (struct tarn_study_column){ row_paths[c], TARN_SET,
							 x[c] };
	base = o.d;
	o.a.study.designs = &base;
	o.a.study.columns = columns;
	o.a.study.column_count = ROW_COLUMNS;
	o.a.study.variants = ROW_COUNT;
	o.a.study.threads = threads;
	rows.value[TARN_Q_TOPUP] = topup;
	rows.value[TARN_Q_LOWEST_LEVEL] = low;
	cr_assert(tarn_study_run(&o.a.study, &rows, NULL) == TARN_OK);
	expect_rows(&o, x, topup, low, &bad);
	cr_expect(bad == 4 && rows.bad == bad, "%zu, %zu", bad, rows.bad);
	o.a.study.skip_bad = 0;
	cr_expect(tarn_study_run(&o.a.study, &rows, &err) == TARN_EARG);
	cr_expect(rows.done == 0 && strstr(err.text, "(variant 31)"), "%s",
		  err.text);
	tarn_resolved_free(&o.a.r);
	close_one(&o);
}

Test(study_design, rows_in_turn)
{
	rows_in_turn(1);
	rows_in_turn(2);
}

/* A study with another pipe is another study, if a column can tell. */
Test(study_design, fingerprint_knows_the_design)
{
	static struct one o;
	struct tarn_design *other;
	const struct tarn_design *base;
	double x = 0.9;
	struct tarn_study_column column = { "overflow_level", TARN_SET, &x };
	uint64_t a, b, c;

	open_one(&o, "{" REST LAYERS "," SHAPE "}");
	cr_assert(prepare(&o.a, o.d));
	other = tarn_design_copy(o.d);
	other->works.run[0].length_m += 1;
	o.a.study.columns = &column;
	o.a.study.column_count = 1;
	base = o.d;
	o.a.study.designs = &base;
	a = tarn_study_fingerprint(&o.a.study);
	base = other;
	b = tarn_study_fingerprint(&o.a.study);
	column.field = "seepage.rate";
	c = tarn_study_fingerprint(&o.a.study);
	base = o.d;
	cr_expect(a != b);
	cr_expect(c == tarn_study_fingerprint(&o.a.study));
	tarn_resolved_free(&o.a.r);
	tarn_design_free(other);
	close_one(&o);
}

static void refused(struct one *o, const char *path,
		    enum tarn_study_change change, double x, const char *part)
{
	struct tarn_error err = { 0 };
	struct tarn_study_column column = { path, change, &x };
	const struct tarn_design *base = o->d;
	size_t count;

	cr_assert(prepare(&o->a, o->d));
	o->a.study.designs = &base;
	o->a.study.columns = &column;
	o->a.study.column_count = 1;
	cr_expect(tarn_study_check(&o->a.study, NULL, 0, &count, &err) ==
		  TARN_EARG);
	cr_expect_str_eq(err.field, path);
	cr_expect(strstr(err.text, part) != NULL, "%s: %s", path, err.text);
	tarn_resolved_free(&o->a.r);
}

Test(study_design, columns_that_cannot_be)
{
	static struct one o;

	open_one(&o, "{" REST LAYERS "," SHAPE "}");
	refused(&o, "bed.aera", TARN_SET, 1, "'bed.area'");
	refused(&o, "bed.layers[3].porosity", TARN_SET, 1, "no field");
	refused(&o, "name", TARN_SET, 1, "no number");
	refused(&o, "evaporation.shade", TARN_SET, 0.5, "worked out");
	refused(&o, "costs.water", TARN_SET, -1, "must be 0 to");
	refused(&o, "costs.sewer", TARN_TIMES, 2, "is not given");
	refused(&o, "bed.depth", TARN_SET, 0.5, "beside bed.layers");
	close_one(&o);
}

/* A basin that somebody made has no sizes to change; all else has. */
Test(study_design, a_basin_that_was_made_before)
{
	static struct one o;
	static const char *const paths[] = { "seepage.rate", "basin.length" };
	struct tarn_error err = { 0 };
	double x = 5;
	size_t count;

	open_one(&o, "{" REST LAYERS "," SHAPE "}");
	cr_assert(prepare(&o.a, o.d));
	for (int made = 0; made < 2; made++)
		for (int i = 0; i < 2; i++) {
			struct tarn_study_column column = { paths[i], TARN_SET,
							    &x };
			const struct tarn_design *base = o.d;

			o.d->pond.basin = made ? o.a.r.pond.basin : NULL;
			o.a.study.designs = &base;
			o.a.study.columns = &column;
			o.a.study.column_count = 1;
			err = (struct tarn_error){ 0 };
			cr_expect((tarn_study_check(&o.a.study, NULL, 0, &count,
						    &err) == TARN_OK) ==
				  !(made && i), "%s: %s", paths[i], err.text);
		}
	cr_expect(strstr(err.text, "made before") != NULL, "%s", err.text);
	o.d->pond.basin = NULL;
	tarn_resolved_free(&o.a.r);
	close_one(&o);
}

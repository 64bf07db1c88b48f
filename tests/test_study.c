/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/season.h"
#include "tarn/study.h"
#include "study_world.h"

#define FIRST_DAY tarn_day(2001, 3, 14)
enum { DAYS = 2500, VARIANTS = 150 };

/* Room for all figures of a study's rows. */
static struct tarn_study_rows rows_for(size_t first, size_t count)
{
	struct tarn_study_rows rows = { .first = first, .count = count };

	for (int q = 0; q < TARN_QUANTITIES; q++)
		rows.value[q] = calloc(count, sizeof(double));
	return rows;
}

static const char *name_of(int q)
{
	return tarn_quantity_info((enum tarn_quantity)q)->name;
}

static void free_rows(struct tarn_study_rows *rows)
{
	for (int q = 0; q < TARN_QUANTITIES; q++)
		free(rows->value[q]);
}

static struct tarn_study_rows run_all(const struct tarn_study *study)
{
	struct tarn_study_rows rows = rows_for(0, tarn_study_count(study));
	struct tarn_error err = { 0 };

	cr_assert(tarn_study_run(study, &rows, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	cr_assert(rows.done == rows.count);
	return rows;
}

static int same_bytes(const struct tarn_study_rows *a,
		      const struct tarn_study_rows *b)
{
	for (int q = 0; q < TARN_QUANTITIES; q++)
		if (memcmp(a->value[q], b->value[q],
			   a->count * sizeof(double)) != 0)
			return 0;
	return 1;
}

static int close_to(double a, double b, double scale)
{
	if (isnan(a) || isnan(b))
		return isnan(a) && isnan(b);
	return fabs(a - b) <= 1e-12 * (fabs(b) + scale);
}

/* Every row against the single ledger of the same pond and weather. */
static void compare(const struct tarn_study *study, const char *what)
{
	struct tarn_study_rows rows = run_all(study);

	for (size_t r = 0; r < rows.count; r++) {
		struct tarn_ledger *ledger;
		struct tarn_pond pond;
		struct tarn_study_delta delta;
		double want[TARN_QUANTITIES];

		cr_assert(tarn_study_variant(study, r % study->variants, &pond,
					     &delta, NULL) == TARN_OK);
		cr_assert(tarn_study_trace(study, r, &ledger, NULL) == TARN_OK);
		tarn_study_summary(ledger, &pond, want);
		for (int q = 0; q < TARN_QUANTITIES; q++)
			cr_expect(close_to(rows.value[q][r], want[q], 1),
				  "%s, row %zu: %s %.17g, ledger %.17g", what,
				  r, name_of(q),
				  rows.value[q][r], want[q]);
		tarn_ledger_free(ledger);
	}
	free_rows(&rows);
}

/* Columns that every pond takes. */
struct columns {
	double lip[VARIANTS], bed[VARIANTS], seep[VARIANTS], rain[VARIANTS];
	double july[VARIANTS], air[VARIANTS], start[VARIANTS];
	struct tarn_study_column column[7];
};

static void make_columns(struct columns *c)
{
	uint64_t seed = 5;

	for (int i = 0; i < VARIANTS; i++) {
		c->lip[i] = 1.15 + 0.1 * world_random(&seed);
		c->bed[i] = 3 * world_random(&seed);
		c->seep[i] = 4 * world_random(&seed);
		c->rain[i] = 0.5 + world_random(&seed);
		c->july[i] = i % 3 ? TARN_NAN : 1.5;
		c->air[i] = 0.8 + 0.4 * world_random(&seed);
		c->start[i] = i % 7 ? TARN_NAN : 1;
	}
	c->column[0] = (struct tarn_study_column){ "overflow_level", TARN_SET,
						   c->lip };
	c->column[1] = (struct tarn_study_column){ "bed.area", TARN_TIMES,
						   c->bed };
	c->column[2] = (struct tarn_study_column){ "seepage.rate", TARN_PLUS,
						   c->seep };
	c->column[3] = (struct tarn_study_column){ "rain", TARN_SET, c->rain };
	c->column[4] = (struct tarn_study_column){ "bed.plant_factor.7",
						   TARN_TIMES, c->july };
	c->column[5] = (struct tarn_study_column){ "evaporation", TARN_SET,
						   c->air };
	c->column[6] = (struct tarn_study_column){ "start_level", TARN_SET,
						   c->start };
}

/* One pond for each part that the description knows. */
enum { PONDS = 12 };
static const char *const pond_names[PONDS] = {
	"plain", "drought", "restricted summers", "rain tank", "pump by day",
	"winter stop", "starved", "curve number", "seepage by head",
	"withdrawals", "no top-up", "all at once"
};

static void restrict_summers(struct tarn_pond *p)
{
	p->supply.when.off_count = 1;
	p->supply.when.off[0] = (struct tarn_span){ TARN_NO_DAY, 0, 615, 915 };
}

static void add_tank(struct tarn_pond *p)
{
	p->tank.capacity_m3 = 2;
	p->tank.roof_m2 = 40;
	p->tank.first_flush_mm = 1;
	p->tank.start_m3 = 1;
	p->supply.rate_m3s = 0.2 / 86400;
}

static void stop_winters(struct tarn_pond *p)
{
	p->pump.hours[0] = p->pump.hours[1] = p->pump.hours[11] = 0;
	p->pump.hours[10] = 12;
	p->pump.drainback_m3 = 0.05;
}

static void draw_water(struct tarn_pond *p)
{
	p->withdrawals = 2;
	p->withdrawal[0].volume_m3 = 0.08;
	p->withdrawal[0].when.weekdays = 1u << 3 | 1u << 6;
	p->withdrawal[1].volume_m3 = 0.3;
	p->withdrawal[1].when.months = 1u << 7;
}

static void use_curve_number(struct tarn_pond *p)
{
	p->apron.area_m2 = 60;
	p->apron.coefficient = TARN_NAN;
	p->apron.curve_number = 85;
}

static void make_ponds(struct tarn_pond p[PONDS], const struct tarn_basin *b)
{
	for (int i = 0; i < PONDS; i++)
		p[i] = world_pond(b);
	p[1].seepage.rate_mm_d = 9;	/* dry in most summers */
	p[1].supply.when.months = 1u << 2;
	p[1].pump.hours[6] = 23;
	restrict_summers(&p[2]);
	add_tank(&p[3]);
	for (int m = 0; m < 12; m++)
		p[4].pump.hours[m] = 10;
	stop_winters(&p[5]);
	p[6].seepage.volume_m3s = 0.12 / 86400;
	p[6].trigger_m = p[6].target_m = TARN_NAN;
	p[6].bed.volume_m3 = 3;
	stop_winters(&p[6]);
	use_curve_number(&p[7]);
	p[8].seepage.per_head_m3s_m = 0.1 / 86400;
	draw_water(&p[9]);
	p[10].trigger_m = p[10].target_m = TARN_NAN;
	restrict_summers(&p[11]);
	add_tank(&p[11]);
	stop_winters(&p[11]);
	draw_water(&p[11]);
	use_curve_number(&p[11]);
	p[11].seepage.per_head_m3s_m = 0.05 / 86400;
}

/* One physics: each pond over columns that change it, on a coarse and on a
 * fine basin. */
Test(study, rows_equal_the_single_ledger)
{
	struct tarn_basin *basins[2] = { world_basin(), world_shelves() };
	struct world w;
	static struct columns c;
	struct tarn_study study = tarn_study_default();

	world_make(&w, FIRST_DAY, DAYS, 1);
	make_columns(&c);
	study.weathers = &w.forcing;
	study.columns = c.column;
	study.column_count = 7;
	study.variants = VARIANTS;
	for (int k = 0; k < 2; k++) {
		static struct tarn_pond ponds[PONDS];

		make_ponds(ponds, basins[k]);
		for (int i = 0; i < PONDS; i++) {
			study.ponds = &ponds[i];
			compare(&study, pond_names[i]);
		}
		tarn_basin_free(basins[k]);
	}
	world_free(&w);
}

/* A control is known by its bytes. */
static enum tarn_status idle_control(void *context,
				  const struct tarn_day_view *view,
				  struct tarn_day_order *order,
				  struct tarn_error *err)
{
	(void)context, (void)view, (void)order, (void)err;
	return TARN_OK;
}

Test(study, fingerprint_has_the_control)
{
	struct tarn_basin *basin = world_basin();
	struct tarn_study study = tarn_study_default();
	struct tarn_pond p = world_pond(basin);
	struct world w;
	uint64_t plain, nameless, a;

	world_make(&w, FIRST_DAY, 30, 1);
	study.ponds = &p;
	study.weathers = &w.forcing;
	study.variants = 1;
	plain = tarn_study_fingerprint(&study);
	study.run.control = idle_control;
	nameless = tarn_study_fingerprint(&study);
	study.control_bytes = "a";
	study.control_size = 1;
	a = tarn_study_fingerprint(&study);
	cr_expect(plain != nameless && plain != a && nameless != a);
	study.control_bytes = "b";
	cr_expect(tarn_study_fingerprint(&study) != a);
	study.control_bytes = "a\0";
	study.control_size = 2;
	cr_expect(tarn_study_fingerprint(&study) != a);
	world_free(&w);
	tarn_basin_free(basin);
}

/* ---- a tank's share of the need -------------------------------------------- */

/* Figures of a pond alone, by the lanes and by the ledger. */
static void both_ways(const struct tarn_pond *pond, const struct world *w,
		      double lanes[TARN_QUANTITIES],
		      double ledger[TARN_QUANTITIES])
{
	struct tarn_study study = tarn_study_default();
	struct tarn_study_rows rows;
	struct tarn_ledger *l;

	study.ponds = pond;
	study.weathers = &w->forcing;
	study.variants = 1;
	rows = run_all(&study);
	for (int q = 0; q < TARN_QUANTITIES; q++)
		lanes[q] = rows.value[q][0];
	free_rows(&rows);
	cr_assert(tarn_study_trace(&study, 0, &l, NULL) == TARN_OK);
	tarn_study_summary(l, pond, ledger);
	cr_expect(memcmp(&ledger[TARN_Q_NEED], &(double){ tarn_ledger_need(l) },
			 sizeof(double)) == 0);
	tarn_ledger_free(l);
}

/* The largest weeks of years, in weathers that begin and end on each weekday of
 * the week, in the days around New Year: lanes, ledger and season alike. */
Test(study, largest_weeks_of_years_are_those_of_the_season)
{
	struct tarn_basin *basin = world_basin();
	struct tarn_pond p = world_pond(basin);
	struct world w;
	static double lanes[TARN_QUANTITIES], ledger[TARN_QUANTITIES];

	for (int shift = 0; shift < 14; shift++) {
		struct tarn_season season;
		struct tarn_ledger *l;

		world_make(&w, tarn_day(2004, 12, 27) + shift,
			   (size_t)(2200 - shift), 1);
		both_ways(&p, &w, lanes, ledger);
		for (int q = TARN_Q_WEEK_MAX; q <= TARN_Q_WEEK_P90; q++)
			cr_expect(memcmp(&lanes[q], &ledger[q], 8) == 0,
				  "%d, %d: %.17g %.17g", shift, q, lanes[q],
				  ledger[q]);
		cr_assert(tarn_ledger_run(&l, NULL, &p, &w.forcing, NULL,
					  NULL) == TARN_OK);
		cr_assert(tarn_season(&season, NULL, l, NULL) == TARN_OK);
		cr_expect(season.year_peak_m3.count >= 5);
		cr_expect(memcmp(&season.year_peak_m3.p90,
				 &lanes[TARN_Q_WEEK_P90], 8) == 0);
		tarn_ledger_free(l);
		world_free(&w);
	}
	tarn_basin_free(basin);
}

static double need_of(const struct tarn_pond *pond, const struct world *w,
		      double value[TARN_QUANTITIES])
{
	double ledger[TARN_QUANTITIES];

	both_ways(pond, w, value, ledger);
	cr_expect(memcmp(&value[TARN_Q_NEED], &ledger[TARN_Q_NEED],
			 sizeof(double)) == 0, "%.17g, ledger %.17g",
		  value[TARN_Q_NEED], ledger[TARN_Q_NEED]);
	cr_expect(memcmp(&value[TARN_Q_TANK_SHARE], &ledger[TARN_Q_TANK_SHARE],
			 sizeof(double)) == 0);
	return value[TARN_Q_NEED];
}

/* The supply shut but in January: what is refused is needed all the same. */
Test(study, a_ban_makes_no_tank_smaller)
{
	struct tarn_basin *basins[2] = { world_basin(), world_shelves() };
	double open[TARN_QUANTITIES], shut[TARN_QUANTITIES];
	double large[TARN_QUANTITIES], none[TARN_QUANTITIES];
	struct world w;

	world_make(&w, FIRST_DAY, DAYS, 1);
	for (int k = 0; k < 2; k++) {
		struct tarn_pond p = world_pond(basins[k]);
		double need_m3, came;

		need_of(&p, &w, none);
		cr_expect(isnan(none[TARN_Q_NEED]));
		p.tank.capacity_m3 = 0.1;
		p.tank.roof_m2 = 40;
		need_m3 = need_of(&p, &w, open);
		cr_expect(close_to(need_m3, none[TARN_Q_TOPUP], 1));
		cr_expect(close_to(need_m3, open[TARN_Q_TOPUP] +
						    open[TARN_Q_TANK], 1));
		p.supply.when.months = 1u << 1;
		cr_expect(close_to(need_of(&p, &w, shut), need_m3, 0));
		/* of what came from both the tank gave much more */
		came = shut[TARN_Q_TANK] / (shut[TARN_Q_TOPUP] +
					    shut[TARN_Q_TANK]);
		cr_expect(shut[TARN_Q_TANK_SHARE] < came - 0.1, "%g, %g",
			  shut[TARN_Q_TANK_SHARE], came);
		cr_expect(shut[TARN_Q_RESTRICTED] > 100);
		p.supply.rate_m3s = 0.01 / 86400;	/* and slow */
		p.tank.capacity_m3 = 50;
		stop_winters(&p);	/* the loops with pumps that stop */
		need_of(&p, &w, shut);
		p.tank.capacity_m3 = 3;
		need_of(&p, &w, large);
		cr_expect(memcmp(&shut[TARN_Q_NEED], &large[TARN_Q_NEED],
				 sizeof(double)) == 0);
		tarn_basin_free(basins[k]);
	}
	world_free(&w);
}

/* A run without top-up needs none, and no share is told. */
Test(study, no_share_where_no_water_is_wanted)
{
	struct tarn_basin *basin = world_basin();
	struct tarn_study study = tarn_study_default();
	struct tarn_study_rows rows;
	struct tarn_pond p = world_pond(basin);
	struct world w;

	world_make(&w, FIRST_DAY, DAYS, 1);
	add_tank(&p);
	study.ponds = &p;
	study.weathers = &w.forcing;
	study.variants = 1;
	study.run.no_topup = 1;
	compare(&study, "no top-up, with a tank");
	rows = run_all(&study);
	cr_expect(isnan(rows.value[TARN_Q_NEED][0]));
	cr_expect(isnan(rows.value[TARN_Q_TANK_SHARE][0]));
	free_rows(&rows);
	world_free(&w);
	tarn_basin_free(basin);
}

/* A study of the busiest pond, for the tests below. */
struct fixture {
	struct tarn_basin *basin;
	struct world worlds[3];
	struct tarn_forcing weathers[3];
	struct tarn_pond ponds[PONDS];
	struct columns columns;
	unsigned pond_of[VARIANTS];
	struct tarn_study study;
};

static struct fixture *make_fixture(void)
{
	struct fixture *f = calloc(1, sizeof *f);

	f->basin = world_basin();
	for (int i = 0; i < 3; i++) {
		world_make(&f->worlds[i], FIRST_DAY + 100 * i,
			   (size_t)(900 - 100 * i), (uint64_t)i);
		f->weathers[i] = f->worlds[i].forcing;
	}
	make_ponds(f->ponds, f->basin);
	make_columns(&f->columns);
	for (int i = 0; i < VARIANTS; i++)
		f->pond_of[i] = (unsigned)(i / 40);
	f->study = tarn_study_default();
	f->study.ponds = f->ponds;
	f->study.pond_count = PONDS;
	f->study.pond_of = f->pond_of;
	f->study.weathers = f->weathers;
	f->study.weather_count = 3;
	f->study.columns = f->columns.column;
	f->study.column_count = 7;
	f->study.variants = VARIANTS;
	return f;
}

static void free_fixture(struct fixture *f)
{
	for (int i = 0; i < 3; i++)
		world_free(&f->worlds[i]);
	tarn_basin_free(f->basin);
	free(f);
}

Test(study, same_bytes_for_any_number_of_threads)
{
	static const int threads[] = { 2, 3, 8 };
	struct fixture *f = make_fixture();
	struct tarn_study_rows want = run_all(&f->study);

	for (int i = 0; i < 3; i++) {
		struct tarn_study_rows got;

		f->study.threads = threads[i];
		got = run_all(&f->study);
		cr_expect(same_bytes(&want, &got), "%d threads", threads[i]);
		free_rows(&got);
	}
	free_rows(&want);
	free_fixture(f);
}

/* A row does not depend on its neighbours: any lane, any block. */
Test(study, rows_do_not_depend_on_each_other)
{
	struct fixture *f = make_fixture();
	struct tarn_study_rows want = run_all(&f->study);

	for (size_t r = 0; r < want.count; r += 7) {
		struct tarn_study_rows one = rows_for(r, 1);

		cr_assert(tarn_study_run(&f->study, &one, NULL) == TARN_OK);
		for (int q = 0; q < TARN_QUANTITIES; q++)
			cr_expect(memcmp(one.value[q], &want.value[q][r],
					 sizeof(double)) == 0, "row %zu: %s", r,
				  name_of(q));
		free_rows(&one);
	}
	free_rows(&want);
	free_fixture(f);
}

/* ---- parts and records ---------------------------------------------------- */

struct bytes {
	void *at;
	size_t size;
};

static struct bytes record_of(const struct tarn_study *study,
			      const struct tarn_study_rows *rows)
{
	struct bytes b = { NULL, tarn_record_size(rows) };

	b.at = malloc(b.size);
	tarn_record_write(rows, tarn_study_fingerprint(study),
			  tarn_study_count(study), b.at);
	return b;
}

static struct bytes run_part(const struct tarn_study *study, size_t k, size_t n)
{
	struct tarn_study_rows rows;
	struct bytes b;
	size_t first, count;

	tarn_study_part(tarn_study_count(study), k, n, &first, &count);
	rows = rows_for(first, count);
	cr_assert(tarn_study_run(study, &rows, NULL) == TARN_OK);
	b = record_of(study, &rows);
	free_rows(&rows);
	return b;
}

enum { PARTS_MAX = 8 };

static enum tarn_status check_parts(struct bytes *part, size_t n,
				    struct tarn_record *whole,
				    struct tarn_error *err)
{
	const void *at[PARTS_MAX + 1];
	size_t size[PARTS_MAX + 1];

	for (size_t i = 0; i < n; i++) {
		at[i] = part[i].at;
		size[i] = part[i].size;
	}
	memset(err, 0, sizeof *err);
	return tarn_records_check(at, size, n, whole, err);
}

Test(study, parts_merge_to_the_bytes_of_an_undivided_run)
{
	static const size_t parts[] = { 1, 3, 8 };
	struct fixture *f = make_fixture();
	struct bytes whole = run_part(&f->study, 1, 1);

	for (int i = 0; i < 3; i++) {
		struct bytes part[PARTS_MAX], merged;
		struct tarn_record r;
		struct tarn_error err;
		struct tarn_study_rows rows;

		/* handed in backwards */
		for (size_t k = 0; k < parts[i]; k++)
			part[k] = run_part(&f->study, parts[i] - k, parts[i]);
		cr_assert(check_parts(part, parts[i], &r, &err) == TARN_OK,
			  "%s", err.text);
		rows = rows_for(r.first, r.count);
		for (size_t k = 0; k < parts[i]; k++)
			cr_assert(tarn_record_fill(&rows, part[k].at,
						   part[k].size, NULL) ==
				  TARN_OK);
		rows.done = r.done;
		merged = record_of(&f->study, &rows);
		cr_expect(merged.size == whole.size &&
			  memcmp(merged.at, whole.at, whole.size) == 0,
			  "%zu parts", parts[i]);
		for (size_t k = 0; k < parts[i]; k++)
			free(part[k].at);
		free(merged.at);
		free_rows(&rows);
	}
	free(whole.at);
	free_fixture(f);
}

Test(study, merge_refuses_what_does_not_belong)
{
	struct fixture *f = make_fixture();
	struct bytes part[4], foreign;
	struct tarn_record r;
	struct tarn_error err;

	for (size_t k = 0; k < 3; k++)
		part[k] = run_part(&f->study, k + 1, 3);
	part[3] = part[1];
	cr_expect(check_parts(part, 4, &r, &err) == TARN_EFORMAT);
	cr_expect(strstr(err.text, "4 begins with the same row as part 2"),
		  "%s", err.text);
	cr_expect(check_parts(part, 2, &r, &err) == TARN_EFORMAT);
	cr_expect(strstr(err.text, "with row 301 of 450 is missing"), "%s",
		  err.text);
	/* another rain on one day: another study */
	f->worlds[0].rain[17] += 0.1;
	foreign = run_part(&f->study, 2, 3);
	part[1] = foreign;
	cr_expect(check_parts(part, 3, &r, &err) == TARN_EFORMAT);
	cr_expect(strstr(err.text, "2 is of another study"), "%s", err.text);
	part[1] = part[3];
	((char *)part[2].at)[200] ^= 1;
	cr_expect(check_parts(part, 3, &r, &err) == TARN_EFORMAT);
	cr_expect(strstr(err.text, "damaged"), "%s", err.text);
	cr_expect(tarn_record_read(&r, part[0].at, part[0].size - 8, NULL) ==
		  TARN_EFORMAT);
	cr_expect(tarn_record_read(&r, "hello", 5, NULL) == TARN_EFORMAT);
	for (size_t k = 0; k < 3; k++)
		free(part[k].at);
	free(foreign.at);
	free_fixture(f);
}

/* Rows go where they belong: those of a record that begins at row 4 into space
 * that begins at row 3. */
Test(study, rows_of_a_record_find_their_place)
{
	double three[3] = { 1, 2, 3 }, space[5] = { -1, -1, -1, -1, -1 };
	const double want[5] = { -1, 1, 2, 3, -1 };
	struct tarn_study_rows from = { .first = 4, .count = 3, .done = 3 };
	struct tarn_study_rows to = { .first = 3, .count = 5 };
	unsigned char bytes[200];

	from.value[TARN_Q_TOPUP] = three;
	to.value[TARN_Q_TOPUP] = space;
	tarn_record_write(&from, 1, 9, bytes);
	cr_assert(tarn_record_fill(&to, bytes, tarn_record_size(&from), NULL) ==
		  TARN_OK);
	for (int i = 0; i < 5; i++)
		cr_expect(space[i] == want[i], "row %d: %g", i + 3, space[i]);
}

/* Whole by its checksum, and still no record: rows beyond its part or its
 * study, or more than bytes can hold. */
Test(study, records_that_mean_harm)
{
	static const struct {
		size_t of_all, first, count, done;
		enum tarn_status status;
	} rows[] = {
		{ 9, 4, 5, 3, TARN_OK },	{ 9, 9, 0, 0, TARN_OK },
		{ 9, 4, 2, 3, TARN_EFORMAT },	{ 9, 4, 6, 3, TARN_EFORMAT },
		{ 9, 10, 0, 0, TARN_EFORMAT },
		{ 9, SIZE_MAX, 3, 3, TARN_EFORMAT },
		{ SIZE_MAX, 0, SIZE_MAX, 3, TARN_EFORMAT },
		{ SIZE_MAX, 0, SIZE_MAX / 8 + 1, 3, TARN_EFORMAT },
	};
	double topup[3] = { 1, 2, 3 };

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_study_rows x = {
			.first = rows[i].first, .count = rows[i].count,
			.done = rows[i].done,
		};
		unsigned char bytes[200];
		struct tarn_record r;

		x.value[TARN_Q_TOPUP] = topup;
		cr_assert(tarn_record_size(&x) <= sizeof bytes);
		tarn_record_write(&x, 1, rows[i].of_all, bytes);
		cr_expect(tarn_record_read(&r, bytes, tarn_record_size(&x),
					   NULL) == rows[i].status, "row %zu",
			  i);
	}
}

static int stop_half_way(void *context, size_t done, size_t rows)
{
	++*(int *)context;
	return done >= rows / 2;
}

/* Stopped in the middle, and gone on with from what was kept. */
Test(study, a_stopped_run_goes_on_to_the_same_bytes)
{
	struct fixture *f = make_fixture();
	struct bytes want = run_part(&f->study, 1, 1), kept, got;
	struct tarn_study_rows rows = rows_for(0, tarn_study_count(&f->study));
	struct tarn_study_rows rest, all;
	struct tarn_record r;
	int asked = 0;

	f->study.progress = stop_half_way;
	f->study.progress_context = &asked;
	cr_assert(tarn_study_run(&f->study, &rows, NULL) == TARN_ESTOP);
	cr_assert(rows.done >= rows.count / 2 && rows.done < rows.count);
	cr_expect(asked > 0);
	kept = record_of(&f->study, &rows);

	f->study.progress = NULL;
	f->study.threads = 2;
	cr_assert(tarn_record_read(&r, kept.at, kept.size, NULL) == TARN_OK);
	cr_assert(r.fingerprint == tarn_study_fingerprint(&f->study));
	rest = rows_for(r.first + r.done, r.count - r.done);
	cr_assert(tarn_study_run(&f->study, &rest, NULL) == TARN_OK);
	all = rows_for(r.first, r.count);
	cr_assert(tarn_record_fill(&all, kept.at, kept.size, NULL) == TARN_OK);
	for (int q = 0; q < TARN_QUANTITIES; q++)
		memcpy(all.value[q] + r.done, rest.value[q],
		       rest.count * sizeof(double));
	all.done = all.count;
	got = record_of(&f->study, &all);
	cr_expect(got.size == want.size &&
		  memcmp(got.at, want.at, got.size) == 0);
	free(want.at);
	free(kept.at);
	free(got.at);
	free_rows(&rows);
	free_rows(&rest);
	free_rows(&all);
	free_fixture(f);
}

Test(study, parts_cover_all_rows_once)
{
	for (size_t rows = 0; rows < 20; rows++)
		for (size_t n = 1; n < 25; n++) {
			size_t next = 0, first, count;

			for (size_t k = 1; k <= n; k++) {
				tarn_study_part(rows, k, n, &first, &count);
				cr_assert(first == next);
				next += count;
			}
			cr_assert(next == rows);
		}
}

/* ---- refusals ------------------------------------------------------------- */

/* A lip under the trigger in number 73. */
Test(study, bad_variants_are_told_by_number)
{
	struct fixture *f = make_fixture();
	struct tarn_study_rows want = run_all(&f->study), got;
	struct tarn_error err = { 0 };
	size_t bad[3], count;

	got = rows_for(0, want.count);
	f->columns.lip[72] = 1.0;
	f->columns.bed[130] = -1;
	cr_expect(tarn_study_check(&f->study, bad, 3, &count, &err) ==
		  TARN_EARG);
	cr_expect(count == 2 && bad[0] == 72 && bad[1] == 130);
	cr_expect_str_eq(err.field, "trigger");
	cr_expect(strncmp(err.text,
			  "(variant 73) must not lie above the overflow",
			  44) == 0, "%s", err.text);
	cr_expect(tarn_study_run(&f->study, &got, NULL) == TARN_EARG);
	cr_expect(got.done == 0);

	f->study.skip_bad = 1;
	f->study.threads = 2;
	cr_expect(tarn_study_run(&f->study, &got, NULL) == TARN_OK);
	cr_expect(got.bad == 6);	/* two, in each of three weathers */
	for (size_t r = 0; r < got.count; r++) {
		double x = got.value[TARN_Q_TOPUP][r];

		if (r % VARIANTS == 72 || r % VARIANTS == 130)
			cr_expect(isnan(x), "row %zu", r);
		else
			cr_expect(memcmp(&x, &want.value[TARN_Q_TOPUP][r],
					 sizeof x) == 0, "row %zu", r);
	}
	free_rows(&want);
	free_rows(&got);
	free_fixture(f);
}

Test(study, refuses_what_it_does_not_know)
{
	struct fixture *f = make_fixture();
	struct tarn_study_rows rows = rows_for(0, 1);
	static const struct {
		const char *field, *text;
	} names[] = {
		{ "bed.aera", "did you mean 'bed.area'?" },
		{ "overflow_levle", "did you mean 'overflow_level'?" },
		{ "overflow_level.7", "is no field of a pond" },
		{ "pump.hours.13", "did you mean 'pump.hours'?" },
		{ "weather", "is no field of a pond" },
	};

	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
		struct tarn_error err = { 0 };

		f->columns.column[0].field = names[i].field;
		cr_expect(tarn_study_run(&f->study, &rows, &err) == TARN_EARG);
		cr_expect(strstr(err.text, names[i].text), "%s: %s",
			  names[i].field, err.text);
	}
	f->columns.column[0].field = "supply.rate";	/* not given there */
	f->columns.column[0].change = TARN_TIMES;
	cr_expect(tarn_study_run(&f->study, &rows, NULL) == TARN_EARG);
	f->columns.column[0].field = "overflow_level";
	f->columns.column[0].change = TARN_SET;
	cr_expect(tarn_study_run(&f->study, &rows, NULL) == TARN_OK);
	f->worlds[0].rain[5] = TARN_NAN;
	cr_expect(tarn_study_run(&f->study, &rows, NULL) == TARN_EARG);
	f->worlds[0].rain[5] = 0;
	f->study.threads = 0;
	cr_expect(tarn_study_run(&f->study, &rows, NULL) == TARN_EARG);
	f->study.threads = 1;
	rows.first = tarn_study_count(&f->study);
	cr_expect(tarn_study_run(&f->study, &rows, NULL) == TARN_EARG);
	free_rows(&rows);
	free_fixture(f);
}

/* An allocator that gives way at the n-th call. */
struct failing {
	int left, held;
};

static void *fail_later(void *context, void *block, size_t bytes)
{
	struct failing *f = context;

	if (bytes == 0) {
		f->held -= block != NULL;
		free(block);
		return NULL;
	}
	if (f->left-- <= 0)
		return NULL;
	f->held++;
	return malloc(bytes);
}

Test(study, survives_each_failing_allocation)
{
	struct fixture *f = make_fixture();
	struct failing fail = { 0, 0 };
	struct tarn_alloc alloc = { fail_later, &fail };
	struct tarn_study_rows rows = rows_for(0, 4);
	int n = 0;

	f->study.alloc = &alloc;
	f->study.threads = 2;
	for (;; n++) {
		enum tarn_status status;

		fail.left = n;
		status = tarn_study_run(&f->study, &rows, NULL);
		cr_assert(fail.held == 0, "%d: %d blocks left", n, fail.held);
		if (status == TARN_OK)
			break;
		cr_assert(status == TARN_ENOMEM, "%d", n);
	}
	cr_expect(n > 10);
	free_rows(&rows);
	free_fixture(f);
}

static enum tarn_status no_change(void *context,
				  const struct tarn_day_view *view,
				  struct tarn_day_order *order,
				  struct tarn_error *err)
{
	(void)view;
	(void)order;
	(void)err;
	++*(long *)context;
	return TARN_OK;
}

/* with a control each row runs as a ledger; one that changes nothing shows. */
Test(study, a_rule_takes_the_slow_way_to_the_same_figures)
{
	struct fixture *f = make_fixture();
	struct tarn_study_rows fast = rows_for(140, 25), slow = rows_for(140, 25);
	long days = 0;

	cr_assert(tarn_study_run(&f->study, &fast, NULL) == TARN_OK);
	f->study.run.control = no_change;
	f->study.run.control_context = &days;
	cr_assert(tarn_study_run(&f->study, &slow, NULL) == TARN_OK);
	cr_expect(days == 10 * 900 + 15 * 800);
	for (size_t r = 0; r < fast.count; r++)
		for (int q = 0; q < TARN_QUANTITIES; q++)
			cr_expect(close_to(fast.value[q][r], slow.value[q][r],
					   1), "row %zu: %s", r,
				  name_of(q));
	free_rows(&fast);
	free_rows(&slow);
	free_fixture(f);
}

Test(study, runs_without_topup_and_from_a_stopped_pump)
{
	struct fixture *f = make_fixture();

	f->study.run.start_stopped = 1;
	f->study.run.start_level_m = 1.05;
	f->columns.column[6].field = "intake";
	compare(&f->study, "start stopped");
	f->study.run.no_topup = 1;
	compare(&f->study, "no top-up");
	free_fixture(f);
}

Test(study, quantities_by_name)
{
	cr_expect(tarn_quantity_find("week_p90") == TARN_Q_WEEK_P90);
	cr_expect(tarn_quantity_find("december") == TARN_Q_JANUARY + 11);
	cr_expect(tarn_quantity_find("nothing") == TARN_QUANTITIES);
}

/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "published.h"

#include "tarn.h"

static int same_number(double a, double b)
{
	return memcmp(&a, &b, sizeof a) == 0;
}

static void near(double got, double want, double within)
{
	cr_expect(fabs(got - want) <= within, "%.9g, want %.9g", got, want);
}

/* ---- what is said of the place ------------------------------------------------ */

Test(design, how_much_of_the_place_is_said)
{
	static const struct {
		double shelter, shade;
		int wind, sun, surroundings;
		enum tarn_leak_site site;
	} rows[] = {
		{ TARN_NAN, TARN_NAN, 0, 0, 0, TARN_SITE_UNDESCRIBED },
		{ TARN_NAN, TARN_NAN, 0, 0, TARN_SURROUNDINGS_LAWN,
		  TARN_SITE_UNDESCRIBED },
		{ 1, 1, 0, 0, 0, TARN_SITE_DESCRIBED },
		{ 0.5, TARN_NAN, 0, 0, 0, TARN_SITE_HALF_DESCRIBED },
		{ TARN_NAN, TARN_NAN, 0, TARN_SUN_HALF_SHADE, 0,
		  TARN_SITE_HALF_DESCRIBED },
		{ TARN_NAN, 0.85, TARN_WIND_WALLED_YARD, 0, 0,
		  TARN_SITE_DESCRIBED },
		{ TARN_NAN, TARN_NAN, 0, TARN_SUN_OPEN_SKY,
		  TARN_SURROUNDINGS_PAVING, TARN_SITE_PAVED_ALONE },
		{ 0.5, 0.85, 0, 0, TARN_SURROUNDINGS_HOT_DRY,
		  TARN_SITE_PAVED },
	};
	struct tarn_design *d = tarn_design_new(NULL);

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		d->evaporation.shelter = rows[i].shelter;
		d->evaporation.shade = rows[i].shade;
		d->site.wind = rows[i].wind;
		d->site.sun = rows[i].sun;
		d->site.surroundings = rows[i].surroundings;
		cr_expect(tarn_design_leak_site(d) == rows[i].site, "row %zu",
			  i);
	}
	d->site.measured = 0.8;
	cr_expect(tarn_design_leak_site(d) == TARN_SITE_MEASURED);
	tarn_design_free(d);
}

/* The fit's prior of evaporation in the open is the same whatever the run has
 * of it: docs/methods/leak.md. */
Test(design, the_prior_of_a_leak_is_over_its_run)
{
	struct tarn_evaporation_report penman = { .method = TARN_PENMAN_1956 };
	struct tarn_evaporation_report given = { .method = TARN_GIVEN };
	struct tarn_design *d = tarn_design_new(NULL);
	double run = tarn_exposure_run_factor(TARN_PENMAN_1956, 0.5, 0.8);
	struct tarn_leak_prior p;

	p = tarn_design_leak_prior(d, tarn_design_leak_site(d), &penman);
	near(p.mean, 0.85 / (0.88 * 1.03 * run), 1e-12);
	near(p.sd, 0.30 / (0.88 * 1.03 * run), 1e-12);
	p = tarn_design_leak_prior(d, tarn_design_leak_site(d), &given);
	near(p.mean, 0.85, 1e-12);
	d->site.wind = TARN_WIND_OPEN_FIELD;
	run = tarn_exposure_run_factor(TARN_PENMAN_1956, 1, 0.8);
	p = tarn_design_leak_prior(d, tarn_design_leak_site(d), &penman);
	near(p.mean, 0.92 / (0.88 * 1.03 * run), 1e-12);
	d->evaporation.shade = 0.5;
	d->site.surroundings = TARN_SURROUNDINGS_PAVING;
	p = tarn_design_leak_prior(d, tarn_design_leak_site(d), &penman);
	near(p.mean, 1.15 / (0.88 * 1.05), 1e-12);
	near(p.sd, 0.30 / (0.88 * 1.05), 1e-12);
	/* a calibration is the mean, as wide as its site in proportion */
	d->pond.open_water_factor = 0.7;
	p = tarn_design_leak_prior(d, tarn_design_leak_site(d), &penman);
	near(p.mean, 1, 1e-12);
	near(p.sd, 0.30 / 1.15, 1e-12);
	d->pond.open_water_factor = TARN_NAN;
	/* so sure a measurement is the centre itself */
	d->site.measured = 0.7;
	d->site.measured_sd = 0.01;
	p = tarn_design_leak_prior(d, tarn_design_leak_site(d), &penman);
	near(p.mean, 1, 0.01);
	near(p.sd, 0.01, 0.0002);
	tarn_design_free(d);
}

/* What the words say is run, and a number goes before its word. */
Test(design, words_for_the_place_make_wind_and_sun)
{
	static const char text[] =
		"{\"basin\": {\"shape\": \"rectangle\", \"length\": 5,"
		" \"width\": 4, \"depth\": 1.1}, \"overflow_level\": 1,"
		" \"evaporation\": {\"shelter\": 0.45},"
		" \"site\": {\"wind\": \"walled yard\", \"sun\":"
		" \"half shade\", \"station\": \"5 km\"}}";
	struct tarn_error err = { 0 };
	struct tarn_design *d;
	struct tarn_resolved made;
	char word[40];

	cr_assert(tarn_design_read_json(&d, NULL, text, sizeof text - 1,
					&err) == TARN_OK, "%s %s", err.field,
		  err.text);
	cr_assert(tarn_design_resolve(d, &made, &err) == TARN_OK);
	near(made.evaporation.shelter, 0.45, 0);
	near(made.evaporation.shade, 0.65, 0);
	near(made.place.shelter, 0.45, 0);
	cr_expect(isnan(made.place.shade));
	cr_expect(made.place.site.station == TARN_STATION_5_KM);
	tarn_resolved_free(&made);
	cr_expect(tarn_design_get_text(d, "site.surroundings", word,
				       sizeof word, NULL) == TARN_OK);
	cr_expect_str_eq(word, "not described");
	cr_expect(tarn_design_set_text(d, "site.sun", "dusk", &err) ==
		  TARN_EARG);
	cr_expect_str_eq(err.field, "site.sun");
	tarn_design_free(d);
}

/* ---- a wish alone ----------------------------------------------------------- */

static void same_default(const struct tarn_field *row,
			 const struct tarn_bed_wish *wish,
			 const struct tarn_bed_wish *described)
{
	const char *a = (const char *)wish + row->offset;
	const char *b = (const char *)described + row->offset;
	double x, y;

	if (row->kind == TARN_FIELD_CHOICE) {
		cr_expect(memcmp(a, b, sizeof(int)) == 0, "%s", row->name);
		return;
	}
	cr_assert_eq(row->kind, TARN_FIELD_NUMBER);
	memcpy(&x, a, sizeof x);
	memcpy(&y, b, sizeof y);
	cr_expect(same_number(x, y), "%s: %g, described %g", row->name, x, y);
	cr_expect(same_number(x, row->otherwise), "%s", row->name);
}

/* The bed's wish has the same defaults by itself and in a description. */
Test(design, a_wish_has_the_defaults_of_a_description)
{
	struct tarn_bed_wish wish = tarn_bed_wish_default();
	struct tarn_design *d = tarn_design_new(NULL);
	size_t rows = 0;

	for (size_t i = 0; i < TARN_BED_WISH_SECTIONS; i++)
		for (size_t k = 0; k < tarn_bed_wish_sections[i]->count; k++) {
			same_default(&tarn_bed_wish_sections[i]->rows[k], &wish,
				     &d->wish);
			rows++;
		}
	cr_expect(rows * sizeof(double) > sizeof wish / 2);
	tarn_design_free(d);
}

/* ---- every numeric path ---------------------------------------------------- */

/* The paths of one number that a row describes, by visit(path, row). */
static void number_path(const char *path, const struct tarn_field *row,
			char out[128])
{
	const char *index = row->kind == TARN_FIELD_MONTHS ? "[7]"
			  : row->kind == TARN_FIELD_NUMBERS ? "[1]"
			  : row->kind == TARN_FIELD_PAIRS ? "[1][2]" : "";

	snprintf(out, 128, "%s%s", path, index);
}

static int is_number(const struct tarn_field *row)
{
	return row->kind == TARN_FIELD_NUMBER ||
	       row->kind == TARN_FIELD_MONTHS ||
	       row->kind == TARN_FIELD_NUMBERS ||
	       row->kind == TARN_FIELD_PAIRS;
}

static void try_number(struct tarn_design *d, const char *path, double x,
		       int accepted)
{
	struct tarn_error err = { 0 };
	enum tarn_status status = tarn_design_set(d, path, x, &err);
	double got = -1;

	if (!accepted) {
		cr_expect(status == TARN_EARG, "%s took %g", path, x);
		cr_expect(err.mistake == TARN_MISTAKE_RANGE);
		cr_expect_str_eq(err.field, path);
		cr_expect(same_number(err.found, x));
		cr_expect(err.lo <= err.hi && err.unit[0] != '\0');
		return;
	}
	cr_expect(status == TARN_OK, "%s refused %g: %s", path, x,
		  err.text);
	cr_expect(tarn_design_get(d, path, &got, NULL) == TARN_OK);
	cr_expect(same_number(got, x), "%s: %g set, %g found", path, x, got);
}

static void ends_of(void *context, const char *row_path,
		    const struct tarn_field *row)
{
	struct tarn_design *d = tarn_design_new(NULL);
	int *count = context;
	char path[128];

	if (is_number(row)) {
		number_path(row_path, row, path);
		try_number(d, path, row->lo, 1);
		try_number(d, path, row->hi, 1);
		if (isfinite(row->lo))
			try_number(d, path, nextafter(row->lo, -HUGE_VAL), 0);
		if (isfinite(row->hi))
			try_number(d, path, nextafter(row->hi, HUGE_VAL), 0);
		++*count;
	}
	tarn_design_free(d);
}

Test(design, ends_of_every_number)
{
	int count = 0;

	tarn_fields_walk(&tarn_design_fields, ends_of, &count);
	cr_expect(count > 150);
}

/* ---- defaults --------------------------------------------------------------- */

static int same(const struct tarn_fields *fields, const void *a, const void *b)
{
	for (size_t i = 0; i < fields->count; i++) {
		const struct tarn_field *row = &fields->rows[i];
		size_t size = row->kind == TARN_FIELD_MONTHS ? 96
			    : row->kind == TARN_FIELD_NUMBER ? 8 : 4;

		if (memcmp((const char *)a + row->offset,
			   (const char *)b + row->offset, size) != 0)
			return 0;
	}
	return 1;
}

Test(design, begins_with_what_the_wings_take)
{
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_pond pond = tarn_pond_default();
	struct tarn_evaporation_options e = tarn_evaporation_options_default();
	struct tarn_build build = tarn_build_default();
	struct tarn_chance chance = tarn_chance_default();
	struct tarn_shelved shape = tarn_shelved_default();

	for (size_t i = 0; tarn_pond_sections[i]; i++)
		cr_expect(same(tarn_pond_sections[i], &d->pond, &pond));
	cr_expect(same(&tarn_evaporation_fields, &d->evaporation, &e));
	cr_expect(same(&tarn_build_fields, &d->build, &build));
	cr_expect(same(&tarn_chance_fields, &d->chance, &chance));
	cr_expect(same(&tarn_shelved_fields, &d->basin.shape, &shape));
	cr_expect(same_number(d->pond.bed.plant_factor[11], 1.2));
	cr_expect(same_number(d->pond.pump.hours[0], 24));
	cr_expect(same_number(d->pond.stream.factor, 1.5));
	cr_expect(same_number(d->works.overflow.lip_coefficient, 1.705));
	cr_expect(d->works.storm.stopped == 1);
	cr_expect(d->rate == -1);
	tarn_design_free(d);
}

/* ---- one field ---------------------------------------------------------------- */

static void refused(const char *path, const char *text,
		    enum tarn_mistake mistake, const char *near)
{
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_error err = { 0 };
	enum tarn_status s = text ? tarn_design_set_text(d, path, text, &err)
				  : tarn_design_set(d, path, 1, &err);

	cr_expect(s == TARN_EARG, "%s", path);
	cr_expect(err.mistake == mistake, "%s: %s", path, err.text);
	cr_expect_str_eq(err.near, near, "%s: near is '%s'", path, err.near);
	cr_expect_str_eq(err.field, path);
	tarn_design_free(d);
}

Test(design, refuses_with_data)
{
	refused("bed.aera", NULL, TARN_MISTAKE_UNKNOWN, "bed.area");
	refused("pump.huors", NULL, TARN_MISTAKE_UNKNOWN, "pump.hours");
	refused("bed.layers[2].porosity", NULL, TARN_MISTAKE_UNKNOWN,
		"bed.layers[1].porosity");
	refused("pump.hours[13]", NULL, TARN_MISTAKE_UNKNOWN, "");
	refused("nothing like it", NULL, TARN_MISTAKE_UNKNOWN, "");
	refused("", NULL, TARN_MISTAKE_UNKNOWN, "");
	refused("bed", NULL, TARN_MISTAKE_UNKNOWN, "");
	refused("bed.direction", "upflwo", TARN_MISTAKE_CHOICE, "upflow");
	refused("bed.direction", NULL, TARN_MISTAKE_CHOICE, "upflow");
	refused("pump.check_valve", "yes", TARN_MISTAKE_TYPE, "");
	refused("overflow_level", "4 ft", TARN_MISTAKE_TYPE, "");
	refused("supply.open[1].from", "2015-02-30", TARN_MISTAKE_TYPE, "");
	refused("costs.currency", "more than twelve", TARN_MISTAKE_LENGTH, "");
	refused("name", "a\nb", TARN_MISTAKE_LENGTH, "");
}

static void text_back(const char *path, const char *text)
{
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_error err = { 0 };
	char got[40] = "?";

	cr_expect(tarn_design_set_text(d, path, text, &err) == TARN_OK,
		  "%s: %s", path, err.text);
	tarn_design_get_text(d, path, got, sizeof got, NULL);
	cr_expect_str_eq(got, text);
	tarn_design_free(d);
}

Test(design, texts_words_dates)
{
	text_back("name", "a pond");
	text_back("basin.shape", "ellipse");
	text_back("pump.check_valve", "true");
	text_back("storm.stopped", "false");
	text_back("treatment.rate", tarn_rates(&(size_t){ 0 })[0].name);
	text_back("supply.open[1].from", "2015-07-01");
	text_back("withdrawals[1].closed[1].to", "02-29");
	text_back("bed.layers[1].name", "pea gravel");
}

Test(design, numbers_in_lists)
{
	struct tarn_design *d = tarn_design_new(NULL);
	double x = 0;
	char text[8];

	cr_assert(TARN_OK == tarn_design_set(d, "pump.hours", 6, NULL));
	cr_assert(TARN_OK == tarn_design_set(d, "pump.hours.7", 9, NULL));
	cr_expect(same_number(d->pond.pump.hours[5], 6));
	cr_expect(same_number(d->pond.pump.hours[6], 9));
	cr_assert(TARN_OK == tarn_design_set(d, "pipes[1].fittings.ball valve", 2,
				   NULL));
	cr_assert(TARN_OK == tarn_design_set(d, "pipes[1].fittings.exit", 1, NULL));
	cr_expect(d->works.run[0].fittings == 2);
	cr_expect(d->works.run[0].fitting[1].kind == tarn_fitting_find("exit"));
	cr_expect(tarn_fitting_find("no such") == -1);
	cr_assert(TARN_OK == tarn_design_set(d, "basin.table[1][2]", 3, NULL));
	cr_expect(same_number(d->basin.row[0][1], 3));
	cr_expect(tarn_design_get(d, "name", &x, NULL) == TARN_EARG);
	cr_expect(tarn_design_get_text(d, "overflow_level", text, 8,
				       NULL) == TARN_EARG);
	tarn_design_free(d);
	tarn_design_free(NULL);
}

static void find_word(void *context, const char *path,
		      const struct tarn_field *row)
{
	const char **word = context;

	if (strcmp(path, "bed.direction") == 0)
		*word = tarn_field_word(row, 1);
}

Test(design, places)
{
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_value value = { .kind = TARN_VALUE_NUMBER, .number = 2 };
	struct tarn_place at;
	struct tarn_error err = { 0 };
	const char *word = NULL;

	cr_assert(TARN_OK == tarn_fields_place(&tarn_design_fields, d,
					       "pump.hours", &at, &err));
	cr_expect(same_number(tarn_place_get(&at), 24));
	tarn_place_put(&at, 8);
	cr_expect(same_number(d->pond.pump.hours[11], 8));
	cr_expect(!tarn_field_empty(at.row, at.object));
	cr_assert(TARN_OK == tarn_fields_place(&tarn_design_fields, d,
					       "overflow_level", &at, &err));
	cr_expect(tarn_field_empty(at.row, at.object));
	cr_assert(TARN_OK == tarn_fields_place(&tarn_design_fields, d, "name",
					       &at, &err));
	cr_expect(isnan(tarn_place_get(&at)));
	tarn_place_put(&at, 5);
	cr_expect(d->name[0] == '\0');
	cr_assert(TARN_OK == tarn_fields_set(&tarn_design_fields, d,
					     "overflow_level",
					     &value, NULL, &err));
	cr_expect(same_number(d->pond.overflow_level_m, 2));
	tarn_fields_walk(&tarn_design_fields, find_word, &word);
	cr_expect_str_eq(word, "horizontal");
	tarn_design_free(d);
}

Test(design, rows_own_what_they_say)
{
	const char *text = "{ \"table\": [[0, 1], [1, 2]] }";
	struct tarn_values *values = tarn_values_new(NULL);
	struct tarn_design *d = tarn_design_new(NULL);
	const struct tarn_field *row = tarn_fields_find(&tarn_design_fields,
							"basin");
	const struct tarn_value *table;
	struct tarn_basin_wish copy;
	struct tarn_error err = { 0 };

	cr_assert(TARN_OK == tarn_values_json(values, text, strlen(text),
					      &table, &err));
	cr_assert(TARN_OK == tarn_fields_read(row->of, &d->basin, "basin",
					      table, NULL, &err));
	copy = d->basin;
	cr_assert(TARN_OK == tarn_fields_copy(row->of, &d->basin, &copy, NULL,
					      &err));
	tarn_fields_release(row->of, &d->basin, NULL);
	cr_expect(d->basin.rows == 0 && !d->basin.row);
	cr_expect(copy.rows == 2 && same_number(copy.row[1][1], 2));
	tarn_fields_release(row->of, &copy, NULL);
	tarn_values_free(values);
	tarn_design_free(d);
}

/* ---- descriptions ---------------------------------------------------------------- */

static const char pond_json[] =
	"{ \"name\": \"test\", \"overflow_level\": 0.9, \"trigger\": 0.8,\n"
	"  \"basin\": { \"length\": 5, \"width\": 4, \"depth\": 1,\n"
	"             \"shelves\": [ { \"depth\": 0.3, \"width\": 0.3 } ] },\n"
	"  \"bed\": { \"length\": 3, \"width\": 2, \"cover\": 0.05,\n"
	"           \"layers\": [ { \"thickness\": 0.4, \"porosity\": 0.4,\n"
	"                         \"diameter\": 0.02 },\n"
	"                       { \"thickness\": 0.2, \"porosity\": 0.35,\n"
	"                         \"diameter\": 0.01 } ] },\n"
	"  \"pump\": { \"curve\": [ [0, 4], [0.001, 3], [0.003, 0] ] },\n"
	"  \"pipes\": [ { \"to\": \"bed\", \"diameter\": 0.05, \"length\": 6,\n"
	"               \"lift\": 0.5, \"fittings\": { \"ball valve\": 1 } } ],\n"
	"  \"supply\": { \"weekdays\": [\"mon\", 4], \"open\":\n"
	"              [ { \"from\": \"04-01\", \"to\": \"10-31\" } ] } }\n";

static struct tarn_design *read_text(const char *text, struct tarn_error *err)
{
	struct tarn_design *d;

	tarn_design_read_json(&d, NULL, text, strlen(text), err);
	return d;
}

Test(design, reads_json)
{
	struct tarn_error err = { 0 };
	struct tarn_design *d = read_text(pond_json, &err);

	cr_assert(d != NULL, "%s %s", err.field, err.text);
	cr_expect_str_eq(d->name, "test");
	cr_expect(d->layers == 2);
	cr_expect(same_number(d->layer[1].porosity, 0.35));
	cr_expect(d->curve_points == 3);
	cr_expect(d->basin.shape.shelves == 1);
	cr_expect(d->pond.supply.when.weekdays == (2u | 16u));
	cr_expect(d->pond.supply.when.on[0].first_mmdd == 401);
	cr_expect(isnan(d->pond.bed.depth_m));
	tarn_design_free(d);
}

static void no_json(const char *text, enum tarn_status code, const char *field,
		    long line, const char *part)
{
	struct tarn_error err = { 0 };
	struct tarn_design *d = read_text(text, &err);

	cr_expect(d == NULL, "taken: %s", text);
	cr_expect(err.code == code, "%s", err.text);
	cr_expect_str_eq(err.field, field);
	cr_expect(err.line == line);
	cr_expect(strstr(err.text, part) != NULL, "%s: %s", text, err.text);
}

#define BASIN "\"basin\": { \"length\": 5, \"width\": 4, \"depth\": 1 }"

/* ---- names of before ------------------------------------------------------ */

/* A field by its name of before: its section, the path that it has now. */
static const struct {
	const char *section, *was, *value, *now;
} renamed[] = {
	{ "", "lip", "0.9", "overflow_level" },
	{ "bed", "head", "0.01", "bed.lip_head" },
	{ "bed", "spare_head", "0.3", "bed.available_head" },
	{ "bed", "regime", "\"bog\"", "bed.kind" },
	{ "treatment", "outlet", "2", "treatment.target" },
	{ "treatment", "tanks", "3", "treatment.tanks_in_series" },
};
#define RENAMED (sizeof renamed / sizeof renamed[0])

/* A pond in which the field has one of its names, or both. */
static void with_names(size_t i, int was, int now, char text[400])
{
	const char *section = renamed[i].section, *name = renamed[i].now;
	char entry[160] = "";
	size_t n;

	if (section[0])
		name += strlen(section) + 1;
	n = was ? (size_t)snprintf(entry, sizeof entry, "\"%s\": %s%s",
				   renamed[i].was, renamed[i].value,
				   now ? ", " : "") : 0;
	if (now)
		snprintf(entry + n, sizeof entry - n, "\"%s\": %s", name,
			 renamed[i].value);
	if (section[0])
		snprintf(text, 400, "{ \"overflow_level\": 0.8, " BASIN
			 ", \"%s\": { %s } }", section, entry);
	else
		snprintf(text, 400, "{ %s, " BASIN " }", entry);
}

struct both {
	struct tarn_design *was, *now;
	int count;
};

/* Either holds the same at the path, to the last bit. */
static void same_at(void *context, const char *row_path,
		    const struct tarn_field *row)
{
	struct both *b = context;
	char path[128], text[2][40] = { "", "" };
	double x[2];

	number_path(row_path, row, path);
	if (tarn_design_get(b->was, path, &x[0], NULL) == TARN_OK) {
		cr_expect(tarn_design_get(b->now, path, &x[1], NULL) ==
			  TARN_OK);
		cr_expect(same_number(x[0], x[1]), "%s", path);
		b->count++;
	}
	if (tarn_design_get_text(b->was, path, text[0], 40, NULL) == TARN_OK) {
		tarn_design_get_text(b->now, path, text[1], 40, NULL);
		cr_expect_str_eq(text[0], text[1]);
	}
}

Test(design, names_of_before_are_read_and_noted)
{
	for (size_t i = 0; i < RENAMED; i++) {
		struct both b = { NULL, NULL, 0 };
		struct tarn_error err = { 0 };
		char text[400], path[64];

		with_names(i, 1, 0, text);
		b.was = read_text(text, &err);
		cr_assert(b.was, "%s: %s %s", text, err.field, err.text);
		with_names(i, 0, 1, text);
		b.now = read_text(text, &err);
		cr_assert(b.now, "%s: %s %s", text, err.field, err.text);
		tarn_fields_walk(&tarn_design_fields, same_at, &b);
		cr_expect(b.count > 80);
		snprintf(path, sizeof path, "%s%s%s", renamed[i].section,
			 renamed[i].section[0] ? "." : "", renamed[i].was);
		cr_assert(b.was->old_names == 1 && b.now->old_names == 0);
		cr_expect_str_eq(b.was->old_name[0].path, path);
		cr_expect(strstr(renamed[i].now, b.was->old_name[0].name));
		tarn_design_free(b.was);
		tarn_design_free(b.now);
		with_names(i, 1, 1, text);
		no_json(text, TARN_EARG, path, 0, "which is given too");
	}
}

static void count_was(void *context, const char *path,
		      const struct tarn_field *row)
{
	int *count = context;

	(void)path;
	*count += row->was != NULL;
}

static void add_was(void *context, const char *path, const char *name)
{
	char *said = context;

	snprintf(said + strlen(said), 80, "%s=%s ", path, name);
}

/* Any rows: those of a sizing. */
Test(design, names_of_before_are_told)
{
	static const char text[] = "{ \"freeboard\": 0.1, \"cover\": 0.1 }";
	struct tarn_values *values = tarn_values_new(NULL);
	struct tarn_sizing s = tarn_sizing_default();
	const struct tarn_value *table;
	struct tarn_error err = { 0 };
	char said[200] = "";

	cr_assert(tarn_values_json(values, "{ \"freeboard\": 0.1 }", 20,
				   &table, NULL) == TARN_OK);
	cr_expect(tarn_fields_read_was(&tarn_sizing_fields, &s, "size", table,
				       add_was, said, NULL, NULL) == TARN_OK);
	cr_expect_str_eq(said, "size.freeboard=cover ");
	cr_expect(same_number(s.cover_m, 0.1));
	cr_expect(tarn_fields_read_was(&tarn_sizing_fields, &s, "size", table,
				       NULL, NULL, NULL, NULL) == TARN_OK);
	cr_assert(tarn_values_json(values, text, sizeof text - 1, &table,
				   NULL) == TARN_OK);
	cr_expect(tarn_fields_read_was(&tarn_sizing_fields, &s, "size", table,
				       NULL, NULL, NULL, &err) == TARN_EARG);
	cr_expect(err.mistake == TARN_MISTAKE_CONFLICT);
	tarn_values_free(values);
}

/* By path too: a column of a study, a field set. */
Test(design, paths_of_before)
{
	char now[64];
	int count = 0;

	tarn_fields_walk(&tarn_design_fields, count_was, &count);
	cr_expect(count == RENAMED, "%d rows had a name", count);
	for (size_t i = 0; i < RENAMED; i++) {
		struct tarn_design *d = tarn_design_new(NULL);
		char was[64];
		double x = 0;

		snprintf(was, sizeof was, "%s%s%s", renamed[i].section,
			 renamed[i].section[0] ? "." : "", renamed[i].was);
		cr_expect(tarn_fields_path_now(&tarn_design_fields, was, now,
					       sizeof now) == 1);
		cr_expect_str_eq(now, renamed[i].now);
		if (renamed[i].value[0] != '"') {
			cr_expect(tarn_design_set(d, was, 1, NULL) == TARN_OK);
			tarn_design_get(d, now, &x, NULL);
			cr_expect(same_number(x, 1));
		}
		tarn_design_free(d);
	}
	cr_expect(!tarn_fields_path_now(&tarn_design_fields,
					"bed.layers[2].porosity", now, 64));
	cr_expect_str_eq(now, "bed.layers[2].porosity");
	cr_expect(!tarn_fields_path_now(&tarn_design_fields, "nonsense[3]",
					now, sizeof now));
	cr_expect_str_eq(now, "nonsense[3]");
	cr_expect(tarn_fields_find_was(&tarn_sizing_fields, "freeboard") ==
		  tarn_fields_find(&tarn_sizing_fields, "cover"));
	cr_expect(tarn_fields_find_was(&tarn_sizing_fields, "cover") == NULL);
}

Test(design, says_what_is_wrong_and_where)
{
	no_json("{\n \"overflow_level\": nul }", TARN_EFORMAT, "", 2,
		"expected a value");
	no_json("[]", TARN_EFORMAT, "", 1, "an object");
	no_json("{ \"overflow_level\": 1, \"overflow_level\": 2 }",
		TARN_EFORMAT, "", 1, "before");
	no_json("{ \"overflow_level\": 1 } x", TARN_EFORMAT, "", 1, "after");
	no_json("{ \"name\": \"\\ud800\" }", TARN_EFORMAT, "", 1, "surrogate");
	no_json("{ \"overflow_level\": 0.5 }", TARN_EARG, "basin", 0,
		"is missing");
	no_json("{ " BASIN " }", TARN_EARG, "overflow_level", 0, "is missing");
	no_json("{ \"overflow_lvel\": 0.5 }", TARN_EARG, "overflow_lvel", 0,
		"'overflow_level'");
	no_json("{ \"bed\": { \"layers\": [ { \"thicknes\": 1 } ] } }",
		TARN_EARG, "bed.layers[1].thicknes", 0, "'thickness'");
	no_json("{ \"bed\": { \"layers\": [ { \"porosity\": 1 } ] } }",
		TARN_EARG, "bed.layers[1].thickness", 0, "is missing");
	no_json("{ \"basin\": { \"table\": [[0, 1], [1, 2]], \"length\": 1 } }",
		TARN_EARG, "basin.length", 0, "beside table");
	no_json("{ \"pump\": { \"curve\": [[0]] } }", TARN_EARG,
		"pump.curve[1]", 0, "pair");
	no_json("{ \"pump\": { \"hours\": [1, 2] } }", TARN_EARG, "pump.hours",
		0, "list of 12");
	no_json("{ \"costs\": { \"water\": 2 } }", TARN_EARG,
		"costs.currency", 0, "is missing");
	no_json("{ \"pipes\": { \"length\": 2 } }", TARN_EARG, "pipes", 0,
		"each entry");
	no_json("{ \"yard\": { \"corners\": [ { \"x\": 1 } ] } }", TARN_EARG,
		"yard.corners", 0, "3 to 32");
	no_json("{ \"overflow_level\": 0.5, " BASIN ", "
		"\"supply\": { \"open\": [ { "
		"\"from\": \"2015-05-01\", \"to\": \"06-01\" } ] } }",
		TARN_EARG, "supply.open[1]", 0, "mixes");
}

/* ---- values ------------------------------------------------------------------------ */

Test(design, a_table_by_hand)
{
	struct tarn_values *values = tarn_values_new(NULL);
	struct tarn_value *table = tarn_values_add(values, NULL, NULL);
	struct tarn_value *name = tarn_values_add(values, table, "name");
	struct tarn_design *d;
	struct tarn_error err = { 0 };
	char *room = tarn_values_room(values, 20000);

	memcpy(room, "by hand", 7);
	table->kind = TARN_VALUE_TABLE;
	*name = (struct tarn_value){ .kind = TARN_VALUE_TEXT, .text = room,
				     .bytes = 7, .name = "name" };
	cr_expect(tarn_design_read(&d, NULL, table, &err) == TARN_EARG);
	cr_expect(d == NULL);
	cr_expect(err.mistake == TARN_MISTAKE_MISSING);
	tarn_values_free(values);
	tarn_values_free(NULL);
}

Test(design, a_copy_owns_its_lists)
{
	const char *text =
		"{ \"overflow_level\": 0.5, \"basin\": { \"contours\": ["
		"{ \"level\": 0, \"points\": [[0,0],[2,0],[2,2]] },"
		"{ \"level\": 1, \"points\": [[0,0],[3,0],[3,3]] } ] } }";
	struct tarn_error err = { 0 };
	struct tarn_design *d = read_text(text, &err);
	struct tarn_design *copy;
	struct tarn_resolved r;

	cr_assert(d != NULL, "%s %s", err.field, err.text);
	copy = tarn_design_copy(d);
	tarn_design_free(d);
	cr_expect(copy->basin.contours == 2);
	cr_expect(same_number(copy->basin.contour[1].point[2][1], 3));
	cr_assert(TARN_OK == tarn_design_resolve(copy, &r, &err), "%s", err.text);
	cr_expect(same_number(tarn_basin_area(r.pond.basin, 1), 4.5));
	tarn_resolved_free(&r);
	tarn_design_free(copy);
}

/* ---- what follows -------------------------------------------------------------------- */

static double assumed(const struct tarn_resolved *r, const char *path)
{
	for (int i = 0; i < r->assumptions; i++)
		if (strcmp(r->assumption[i].path, path) == 0 &&
		    r->assumption[i].reason[0])
			return r->assumption[i].value;
	return TARN_NAN;
}

static const char *reason(const struct tarn_resolved *r, const char *path)
{
	for (int i = 0; i < r->assumptions; i++)
		if (strcmp(r->assumption[i].path, path) == 0)
			return r->assumption[i].reason;
	return "";
}

Test(design, what_follows_is_not_written_back)
{
	struct tarn_error err = { 0 };
	struct tarn_design *d = read_text(pond_json, &err);
	struct tarn_design *before = tarn_design_copy(d);
	struct tarn_resolved r;

	cr_assert(TARN_OK == tarn_design_resolve(d, &r, &err), "%s %s", err.field,
		  err.text);
	cr_expect(memcmp(d, before, sizeof *d) == 0);
	cr_expect(same_number(r.pond.bed.area_m2, 6));
	/* 0.4 of 0.4 m and 0.35 of 0.15 m, under 0.05 m of cover */
	cr_expect(fabs(r.pond.bed.volume_m3 - (6 * (0.4 * 0.4 + 0.35 * 0.15))) < 1e-12);
	cr_expect(r.pond.pump.flow_m3s > 1e-4);
	cr_expect(same_number(assumed(&r, "bed.area"), 6));
	cr_expect(same_number(assumed(&r, "bed.volume"), r.pond.bed.volume_m3));
	cr_expect(same_number(assumed(&r, "pump.flow"), r.pond.pump.flow_m3s));
	cr_expect(same_number(assumed(&r, "pump.drainback"), r.pond.pump.drainback_m3));
	cr_expect_str_eq(reason(&r, "pump.drainback"), "pipes, siphon and pools");
	cr_expect(isnan(assumed(&r, "overflow_level")));
	tarn_resolved_free(&r);
	tarn_design_free(before);
	tarn_design_free(d);
}

static void unsolved(const char *path, double x, const char *field,
		     const char *part)
{
	struct tarn_error err = { 0 };
	struct tarn_design *d = read_text(pond_json, &err);
	struct tarn_resolved r;

	cr_assert(TARN_OK == tarn_design_set(d, path, x, &err), "%s", err.text);
	cr_expect(tarn_design_resolve(d, &r, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, field);
	cr_expect(strstr(err.text, part) != NULL, "%s", err.text);
	tarn_design_free(d);
}

Test(design, what_does_not_fit_together)
{
	unsolved("bed.area", 4, "bed.area", "beside length and width");
	unsolved("bed.depth", 0.5, "bed.depth", "beside bed.layers");
	unsolved("bed.cover", 0.7, "bed.cover", "no water");
	unsolved("bed.layers[2].porosity", 0.99, "bed.layers[2].porosity",
		 "in stone");
	unsolved("overflow_level", 1.5, "overflow_level", "its top");
	unsolved("basin.table[1][2]", 3, "basin.length", "beside table");
	unsolved("basin.shelves[1].depth", 2, "basin.shelves", "shelf 1");
}

Test(design, a_basin_must_be_described)
{
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_resolved r;
	struct tarn_error err = { 0 };

	cr_expect(tarn_design_resolve(d, &r, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "basin");
	cr_expect(err.mistake == TARN_MISTAKE_MISSING);
	tarn_design_free(d);
}

Test(design, yards)
{
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_yard_corner c[TARN_YARD_CORNERS];
	struct tarn_yard yard;
	struct tarn_error err = { 0 };

	cr_expect(tarn_yard_wished(&d->yard, &yard, c, &err) == TARN_EARG);
	err.code = TARN_OK;
	tarn_design_set(d, "yard.length", 10, NULL);
	tarn_design_set(d, "yard.width", 6, NULL);
	tarn_design_set(d, "yard.setback", 0.5, NULL);
	tarn_design_set(d, "yard.setbacks[1]", 2, NULL);
	tarn_design_set(d, "yard.footings[1]", 1, NULL);
	cr_assert(TARN_OK == tarn_yard_wished(&d->yard, &yard, c, &err));
	cr_expect(yard.count == 4);
	cr_expect(same_number(c[2].x_m * c[2].y_m, 60));
	cr_expect(same_number(c[0].setback_m, 2));
	cr_expect(same_number(c[3].setback_m, 0.5));
	cr_expect(same_number(c[0].footing_m, 1));
	d->yard.setbacks = 5;
	cr_expect(tarn_yard_wished(&d->yard, &yard, c, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "yard.setbacks");
	tarn_design_free(d);
}

/* ---- parts for other wings --------------------------------------------------- */

Test(design, basins_by_table_and_by_shape)
{
	struct tarn_basin_wish w = { .rows = 0 };
	struct tarn_basin *basin = NULL;
	struct tarn_error err = { 0 };
	double table[2][2] = { { 0, 2 }, { 1, 6 } };

	tarn_fields_default(&tarn_basin_wish_fields, &w);
	cr_expect(tarn_basin_wished(&w, NULL, &basin, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "basin");
	cr_expect_null(basin);
	w.shape.length_m = 4;
	w.shape.width_m = 3;
	w.shape.depth_m = 1;
	cr_assert(TARN_OK == tarn_basin_wished(&w, NULL, &basin, NULL));
	cr_expect_float_eq(tarn_basin_volume(basin, 1), 12, 1e-9);
	tarn_basin_free(basin);
	w.row = table;		/* goes alone */
	w.rows = 2;
	cr_expect(tarn_basin_wished(&w, NULL, &basin, &(struct tarn_error){ 0 })
		  == TARN_EARG);
	tarn_fields_default(&tarn_basin_wish_fields, &w);
	w.row = table;
	w.rows = 2;
	cr_assert(TARN_OK == tarn_basin_wished(&w, NULL, &basin, NULL));
	cr_expect_float_eq(tarn_basin_area(basin, 1), 6, 1e-9);
	tarn_basin_free(basin);
}

Test(design, asks_for_its_bed)
{
	struct tarn_error err = { 0 };
	struct tarn_design *d = read_text(
		"{\"basin\": {\"length\": 4, \"width\": 3, \"depth\": 1},"
		" \"overflow_level\": 0.9, \"pump\": {\"flow\": 0.001},"
		" \"bed\": {\"area\": 3, \"lip_head\": 0.01, \"layers\":"
		"  [{\"thickness\": 0.6, \"diameter\": 0.02,"
		"    \"porosity\": 0.4}]},"
		" \"fish\": {}, \"water\": {\"temp\": 20},"
		" \"yard\": {\"length\": 8, \"width\": 5},"
		" \"demand\": {\"fall_width\": 0.5, \"fall_depth\": 0.02}}", &err);
	struct tarn_resolved made;
	struct tarn_bed_asked out;
	const struct tarn_bed_question *q = &out.question;
	struct tarn_water water = tarn_water(20);

	cr_assert(TARN_OK == tarn_design_resolve(d, &made, NULL));
	cr_assert(TARN_OK == tarn_design_ask_bed(d, &made, &out, NULL));
	cr_expect(q->wish == &d->wish && q->layer == d->layer);
	cr_expect(q->layers == 1 && q->fish == 1 && q->rate == NULL);
	cr_expect(q->yard == &out.yard && isnan(q->yard->dig_m));
	cr_expect(same_number(q->bed_m2, 3));
	cr_expect(same_number(q->pump_m3s, 0.001));
	cr_expect(same_number(q->lip_head_m, 0.01));
	cr_expect_float_eq(q->surface_m2, 12, 1e-9);
	cr_expect_float_eq(q->volume_m3, 10.8, 1e-9);
	cr_expect(same_number(q->density_kgm3, water.density_kgm3));
	cr_expect(q->falls_m3s > 0);
	tarn_resolved_free(&made);
	tarn_design_free(d);
}

/* A section that is not there is not asked for. */
Test(design, asks_for_no_more_than_is_said)
{
	struct tarn_error err = { 0 };
	struct tarn_design *d = read_text(
		"{\"basin\": {\"length\": 4, \"width\": 3, \"depth\": 1},"
		" \"overflow_level\": 0.9, "
		"\"treatment\": {\"rate\": \"hf-bod-2009\"}}", &err);
	struct tarn_resolved made;
	struct tarn_bed_asked out;

	cr_assert(TARN_OK == tarn_design_resolve(d, &made, NULL));
	cr_assert(TARN_OK == tarn_design_ask_bed(d, &made, &out, NULL));
	cr_expect(out.question.fish == 0 && out.question.yard == NULL);
	cr_expect(isnan(out.question.falls_m3s));
	cr_assert_not_null(out.question.rate);
	cr_expect_str_eq(out.question.rate->name, "hf-bod-2009");
	tarn_resolved_free(&made);
	tarn_design_free(d);
}

/* Entries that no design has share the row of those it has. */
Test(design, row_of_a_path)
{
	static const struct {
		const char *path, *unit;
	} rows[] = {
		{ "lip", "m" }, { "bed.layers[9].thickness", "m" },
		{ "pump.hours", "h" }, { "pump.hours[7]", "h" },
		{ "pump.hours.7", "h" }, { "pump.curve[2][1]", "m3/s, m" },
		{ "pipes[3].fittings.ball valve", "-" },
		{ "basin.contours[2].level", "m" },
	};
	static const char *const none[] = {
		"", "bed", "bed.layers", "bed.layers[2]", "bed.aera", "rain",
		"pump.hours.13", "pipes[1].fittings.ball", "lip.7"
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		const struct tarn_field *row =
			tarn_fields_row(&tarn_design_fields, rows[i].path);

		cr_assert(row != NULL, "%s", rows[i].path);
		cr_expect_str_eq(row->unit, rows[i].unit, "%s", rows[i].path);
	}
	for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
		cr_expect_null(tarn_fields_row(&tarn_design_fields, none[i]),
			       "%s", none[i]);
}

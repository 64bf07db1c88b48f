/* SPDX-License-Identifier: MIT */
#include "published.h"
#include "tarn/base.h"

/* NIST SP 811 (2008) appendix B.8 and B.9, from memory; the tolerance is half
 * the last printed digit.  The acre is 43560 international square feet (the
 * table of 2008 prints the survey acre, 4046.873). */
Test(units, published)
{
	static const struct {
		const char *name;
		double want, tol;
	} rows[] = {
		{ "ft", 3.048e-1, 0 },        { "inch", 2.54e-2, 0 },
		{ "ft2", 9.290304e-2, 1e-16 },{ "yd3", 7.645549e-1, 5e-8 },
		{ "gal", 3.785412e-3, 5e-10 },{ "gpm", 6.309020e-5, 5e-12 },
		{ "ft3", 2.831685e-2, 5e-9 }, { "acre", 4046.8564224, 1e-9 },
		{ "mph", 4.4704e-1, 1e-15 },  { "psi", 6.894757, 5e-7 },
		{ "lb", 4.535924e-1, 5e-8 },  { "ton", 9.071847e2, 5e-5 },
		{ "hp", 7.456999e2, 5e-5 },   { "cfs", 2.831685e-2, 5e-9 },
		{ "yd", 9.144e-1, 2e-16 },    { "inch2", 6.4516e-4, 1e-18 },
		{ "yd2", 8.361274e-1, 5e-8 }, { "ha", 1e4, 0 },
		{ "liter", 1e-3, 0 },         { "kgal", 3.785412, 5e-7 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		recalled("NIST SP 811 (2008) appendix B", rows[i].name,
			 tarn_unit(rows[i].name), rows[i].want, rows[i].tol);
	cr_expect(isnan(tarn_unit("cubit")));
	cr_expect(fabs(tarn_celsius(50) - 10) < 1e-14);
	cr_expect(fabs(tarn_fahrenheit(tarn_celsius(71.3)) - 71.3) < 1e-12);
	/* a water bill's CCF is 748.05 US gal */
	cr_expect(fabs(tarn_unit("ccf") / tarn_unit("gal") - 748.05) < 0.005);
}

/* Rates: gallon per day, gpm, km/h and ft/s are printed in NIST SP 811; the
 * others follow from the exact gallon, foot and hour, worked out by hand. */
Test(units, rates)
{
	static const struct {
		const char *name;
		double want, tol;
	} rows[] = {
		{ "gpd", 4.381264e-8, 5e-15 }, { "gph", 1.0515033e-6, 5e-14 },
		{ "gpm", 6.309020e-5, 5e-12 }, { "lpm", 1.6666667e-5, 5e-13 },
		{ "lph", 2.7777778e-7, 5e-15 }, { "lpd", 1.1574074e-8, 5e-16 },
		{ "kmh", 2.777778e-1, 5e-8 },  { "fps", 3.048e-1, 1e-16 },
		{ "minute", 60, 0 }, { "hour", 3600, 0 }, { "day", 86400, 0 },
		{ "week", 604800, 0 }, { "mm_per_day", 1, 0 },
		{ "inch_per_day", 25.4, 0 }, { "mm_per_hour", 1, 0 },
		{ "inch_per_hour", 25.4, 0 }, { "m_per_day", 1, 0 },
		{ "m_per_hour", 24, 0 }, { "lpm_per_m2", 1.44, 1e-15 },
		{ "gpm_per_ft2", 58.674, 5e-4 },
		{ "gph_per_ft2", 0.97790, 5e-6 },
		{ "gpd_per_ft2", 0.040746, 5e-7 },
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		cr_expect(fabs(tarn_unit(rows[i].name) - rows[i].want) <=
				  rows[i].tol, "%s = %.10g, want %.10g",
			  rows[i].name, tarn_unit(rows[i].name),
			  rows[i].want);
}

Test(units, names_are_unique_and_factors_positive)
{
	size_t count;
	const struct tarn_unit *units = tarn_units(&count);

	cr_assert(count > 20);
	for (size_t i = 0; i < count; i++) {
		cr_expect(units[i].factor > 0, "%s", units[i].name);
		for (size_t j = 0; j < i; j++)
			cr_expect(strcmp(units[i].name, units[j].name) != 0,
				  "%s", units[i].name);
	}
}

Test(status, first_error_stays)
{
	struct tarn_error err = { 0 };

	cr_expect(tarn_fail(&err, TARN_EARG, "lip", "is %d", 1) == TARN_EARG);
	cr_expect(tarn_fail(&err, TARN_EIO, "x", "later") == TARN_EIO);
	cr_expect(err.code == TARN_EARG);
	cr_expect_str_eq(err.field, "lip");
	cr_expect_str_eq(err.text, "is 1");
	cr_expect(tarn_fail(NULL, TARN_EIO, NULL, "nobody looks") == TARN_EIO);
	for (int s = TARN_OK; s <= TARN_ESTOP; s++)
		cr_expect(strlen(tarn_status_text((enum tarn_status)s)) > 3);
	cr_expect_str_eq(tarn_status_text((enum tarn_status)99),
			 "unknown status");
	cr_expect_str_eq(tarn_version(), TARN_VERSION);
}

/* The answer belongs to the error that was just noted, and to no other. */
Test(base, an_answer_settles_an_error)
{
	struct tarn_error err = { 0 };
	char many[400];

	cr_expect(tarn_settled(&err, TARN_SETTLE_DATES, "us", TARN_OK) ==
		  TARN_OK);
	cr_expect(err.settle == TARN_SETTLE_NONE);
	cr_expect(tarn_settled(NULL, TARN_SETTLE_DATES, "us", TARN_EIO) ==
		  TARN_EIO);
	cr_expect(tarn_settled(&err, TARN_SETTLE_DATES, "us\teuropean",
			       tarn_fail(&err, TARN_EARG, "dates", "?")) ==
		  TARN_EARG);
	cr_expect(err.settle == TARN_SETTLE_DATES);
	cr_expect_str_eq(err.answers, "us\teuropean");
	/* the first one stays */
	tarn_settled(&err, TARN_SETTLE_ORDER, "sort", TARN_EARG);
	cr_expect(err.settle == TARN_SETTLE_DATES);
	/* another error in the same place has no answer of its own yet */
	err.code = TARN_OK;
	tarn_fail(&err, TARN_EFORMAT, "x", "y");
	cr_expect(err.settle == TARN_SETTLE_NONE && !err.answers[0]);
	/* answers that do not fit are left out whole */
	memset(many, 'a', sizeof many);
	many[100] = many[180] = '\t';
	many[sizeof many - 1] = '\0';
	tarn_settled(&err, TARN_SETTLE_MISSING, many, TARN_EFORMAT);
	cr_expect(strlen(err.answers) == 100);
}

Test(fields, name_distance)
{
	cr_expect(tarn_name_distance("depth", "depht") == 1);
	cr_expect(tarn_name_distance("Depth", "depth") == 0);
	cr_expect(tarn_name_distance("", "abc") == 3);
	cr_expect(tarn_name_distance("kitten", "sitting") == 3);
	cr_expect(tarn_name_distance("shelf", "shelves") == 3);
	cr_expect(tarn_name_distance("abcd", "abdc") == 1, "a swap is one");
	cr_expect(tarn_name_distance("ab", "012345678901234567890123456789"
		  "012345678901234567890123456789012") == 63, "63 is the end");
	cr_expect(tarn_name_distance("a", "0123456789012345678901234567890123"
				     "456789012345678901234567890123") == 63);
}

struct sample {
	double depth_m, month[12];
	int kind;
};

static const char *const kinds[] = { "one", "two", NULL };
static const struct tarn_field rows[] = {
	TARN_IN_REQUIRED(struct sample, depth_m, "depth", "m", 0.1, 10,
			 "depth of the sample"),
	{ .name = "factor", .kind = TARN_FIELD_MONTHS,
	  .offset = offsetof(struct sample, month), .lo = 0, .hi = 2,
	  .unit = "-", .meaning = "factor by month" },
	TARN_IN_CHOICE(struct sample, kind, "kind", kinds, 0, "kind"),
};
static const struct tarn_fields sample_fields = { "sample", rows, 3 };

Test(fields, check)
{
	struct sample s = { 1, { 0 }, 1 };
	struct tarn_error err = { 0 };

	cr_expect(tarn_fields_check(&sample_fields, &s, &err) == TARN_OK);
	s.month[11] = 2.5;
	cr_expect(tarn_fields_check(&sample_fields, &s, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "sample.factor");
	s.month[11] = TARN_NAN;	/* not required: not given is fine */
	cr_expect(tarn_fields_check(&sample_fields, &s, NULL) == TARN_OK);
	s.month[0] = HUGE_VAL;
	cr_expect(tarn_fields_check(&sample_fields, &s, NULL) == TARN_EARG);
	s.month[0] = 0;
	s.depth_m = HUGE_VAL;
	cr_expect(tarn_fields_check(&sample_fields, &s, NULL) == TARN_EARG);
	s.depth_m = TARN_NAN;
	err.code = TARN_OK;
	cr_expect(tarn_fields_check(&sample_fields, &s, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "is missing") != NULL);
	s.depth_m = 0.1;
	cr_expect(tarn_fields_check(&sample_fields, &s, NULL) == TARN_OK);
	s.depth_m = 0.0999;
	cr_expect(tarn_fields_check(&sample_fields, &s, NULL) == TARN_EARG);
	s.depth_m = 1;
	s.kind = 2;
	cr_expect(tarn_fields_check(&sample_fields, &s, NULL) == TARN_EARG);
}

Test(fields, find)
{
	cr_expect(tarn_fields_find(&sample_fields, rows[1].name) == &rows[1]);
	cr_expect(tarn_fields_find(&sample_fields, "none") == NULL);
}

/* What a file holds cannot break the line, nor move the cursor. */
Test(status, an_error_is_one_line)
{
	struct tarn_error err = { 0 };

	tarn_fail(&err, TARN_EFORMAT, "a\tb", "%s", "x\ny\033[2J\177");
	cr_expect_str_eq(err.field, "a?b");
	cr_expect_str_eq(err.text, "x?y?[2J?");
}

/* An old name counts in its own section alone. */
Test(fields, names_that_changed)
{
	cr_expect_str_eq(tarn_name_now("evaporation", "open_water_factor"),
			 "water_over_grass");
	cr_expect_str_eq(tarn_name_now("weir.formula", "cengel"), "linear_cd");
	cr_expect(tarn_name_now("", "open_water_factor") == NULL);
	cr_expect(tarn_name_now("evaporation", "albedo") == NULL);
}

/* ---- defaults out of the rows ------------------------------------------- */

struct part {
	double size;
};

struct whole {
	double given, missing, shade[12];
	int kind, on, whole, parts;
	size_t count;
	long day;
	char text[8];
	const char *string;
	long line;
	unsigned bits, doubts;
	double pair[2], shares[2];
	struct part one, many[3];
	double untouched;
};

static const char *const forms[] = { "round", "square", NULL };
static const struct tarn_flag doubts[] = {
	{ 1, "small", "it is small" }, { .name = NULL }
};
static const struct tarn_field part_rows[] = {
	TARN_IN_NUMBER(struct part, size, "size", "m", 0, 9, 2.5, "of it"),
};
static TARN_FIELDS(part_fields, "part", part_rows);
static const struct tarn_field whole_rows[] = {
	TARN_IN_NUMBER(struct whole, given, "given", "m", 0, 9, 4, "a default"),
	TARN_IN_REQUIRED(struct whole, missing, "missing", "m", 0, 9, "none"),
	TARN_IN_MONTHS(struct whole, shade, "shade", "-", 0, 1, 0.25, "each"),
	TARN_IN_CHOICE(struct whole, kind, "kind", forms, 1, "which"),
	TARN_IN_SWITCH(struct whole, on, "on", 1, "whether"),
	TARN_IN_TEXT(struct whole, text, "text", "a word"),
	TARN_OUT_WHOLE(struct whole, whole, "whole", "-", "a number"),
	TARN_OUT_COUNT(struct whole, count, "count", "-", "how many"),
	TARN_OUT_DAY(struct whole, day, "day", "when"),
	TARN_OUT_STRING(struct whole, string, "string", "some words"),
	TARN_OUT_LINE(struct whole, line, "line", "where"),
	TARN_OUT_FLAG(struct whole, bits, "third", 4, "whether"),
	TARN_OUT_FLAGS(struct whole, doubts, "doubts", doubts, "doubts"),
	TARN_OUT_NAMED(struct whole, shares, "shares", forms, 1, "-", "of each"),
	TARN_OUT_NUMBERS(struct whole, pair, "pair", "-", "two numbers"),
	TARN_SECTION(struct whole, one, "one", part_fields, "a part"),
	TARN_LIST(struct whole, many, parts, "many", part_fields, 0, "parts"),
};
static TARN_FIELDS(whole_fields, "whole", whole_rows);

Test(base_fields, defaults_are_those_of_the_rows)
{
	struct whole w;

	memset(&w, 0x5A, sizeof w);
	w.untouched = 7;
	tarn_fields_default(&whole_fields, &w);
	cr_expect_eq(w.given, 4);
	cr_expect(isnan(w.missing));
	for (int m = 0; m < 12; m++)
		cr_expect_eq(w.shade[m], 0.25);
	cr_expect_eq(w.kind, 1);
	cr_expect_eq(w.on, 1);
	cr_expect_eq(w.text[0], '\0');
	cr_expect_eq(w.whole, 0);
	cr_expect_eq(w.count, 0);
	cr_expect_eq(w.day, TARN_NO_DAY);
	cr_expect_null(w.string);
	cr_expect_eq(w.line, 0);
	cr_expect_eq(w.bits, 0);
	cr_expect(isnan(w.pair[0]) && isnan(w.pair[1]));
	cr_expect_eq(w.one.size, 2.5);
	cr_expect_eq(w.parts, 0);
	cr_expect_eq(w.doubts, 0);
	cr_expect(isnan(w.shares[0]) && isnan(w.shares[1]));
	cr_expect_eq(w.untouched, 7);
}

Test(base_fields, fields_of_a_record_have_its_name)
{
	struct whole w;
	struct tarn_error err = { 0 };

	memset(&w, 0, sizeof w);
	tarn_fields_default(&whole_fields, &w);
	w.missing = 1;
	cr_expect_eq(tarn_fields_check(&whole_fields, &w, &err), TARN_OK);
	w.one.size = 10;
	cr_expect_eq(tarn_fields_check(&whole_fields, &w, &err), TARN_EARG);
	cr_expect_str_eq(err.field, "whole.one.size");
	cr_expect(strstr(err.text, "must be 0 to 9 m, got 10"), "%s", err.text);
}

/* ---- UTF-8 ------------------------------------------------------------------- */

/* RFC 3629: the bounds of each length (section 3), and the sequences that its
 * section 10 and Unicode 15, table 3-7, say are none. */
Test(base_utf8, first_character_of_a_text)
{
	static const struct {
		const char *text;
		long code;
		size_t used;
	} cases[] = {
		{ "A", 0x41, 1 }, { "\x7F", 0x7F, 1 },
		{ "\xC2\x80", 0x80, 2 }, { "\xDF\xBF", 0x7FF, 2 },
		{ "\xE0\xA0\x80", 0x800, 3 }, { "\xEF\xBF\xBF", 0xFFFF, 3 },
		{ "\xF0\x90\x80\x80", 0x10000, 4 },
		{ "\xF4\x8F\xBF\xBF", 0x10FFFF, 4 },
		{ "\xC0\x80", -1, 1 }, { "\xC1\xBF", -1, 1 },
		{ "\xE0\x9F\xBF", -1, 1 }, { "\xED\xA0\x80", -1, 1 },
		{ "\xF0\x8F\xBF\xBF", -1, 1 },
		{ "\xF4\x90\x80\x80", -1, 1 }, { "\xF5\x80\x80\x80", -1, 1 },
		{ "\x80", -1, 1 }, { "\xE2\x82", -1, 1 }, { "\xC2x", -1, 1 },
	};

	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		size_t used = 0;
		long code = tarn_utf8(cases[i].text, strlen(cases[i].text),
				      &used);

		cr_expect(code == cases[i].code && used == cases[i].used,
			  "case %zu: %lX in %zu", i, (unsigned long)code, used);
	}
}

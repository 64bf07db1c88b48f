/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tarn/design.h"

/* A description whose one field is wrong: where it is, and which mistake. */

static enum tarn_status read_text(const char *text, struct tarn_error *err)
{
	struct tarn_design *d = NULL;
	enum tarn_status st;

	*err = (struct tarn_error){ 0 };
	st = tarn_design_read_json(&d, NULL, text, strlen(text), err);
	tarn_design_free(d);
	return st;
}

static const struct {
	const char *text, *field, *part;
	int mistake;
} rows[] = {
	/* numbers */
	{ "'overflow_level':'a'", "overflow_level", "got the text \"a\"",
	  TARN_MISTAKE_TYPE },
	{ "'overflow_level':[1]", "overflow_level", "got table",
	  TARN_MISTAKE_TYPE },
	{ "'overflow_level':true", "overflow_level", "got boolean",
	  TARN_MISTAKE_TYPE },
	{ "'overflow_level':0.0099", "overflow_level", "0.01 to 20, got 0.0099",
	  TARN_MISTAKE_RANGE },
	{ "'overflow_level':20.1", "overflow_level", "0.01 to 20, got 20.1",
	  TARN_MISTAKE_RANGE },
	{ "'overflow_level':1e400", "overflow_level", "got inf",
	  TARN_MISTAKE_RANGE },
	/* texts: 100 bytes, and 31 */
	{ "'name':5", "name", "a text of at most 100", TARN_MISTAKE_LENGTH },
	{ "'name':[1]", "name", "a text of at most 100", TARN_MISTAKE_LENGTH },
	{ "'bed':{'layers':[{'thickness':0.2,'name':7}]}",
	  "bed.layers[1].name", "at most 31", TARN_MISTAKE_LENGTH },
	/* sections */
	{ "'bed':5", "bed", "a table of fields, got number", TARN_MISTAKE_TYPE },
	{ "'bed':'x'", "bed", "a table of fields, got string",
	  TARN_MISTAKE_TYPE },
	{ "'bed':[1]", "bed", "an entry without a name", TARN_MISTAKE_TYPE },
	/* a number for each month */
	{ "'pump':{'hours':'a'}", "pump.hours", "a list of 12",
	  TARN_MISTAKE_LENGTH },
	{ "'pump':{'hours':false}", "pump.hours", "a list of 12",
	  TARN_MISTAKE_LENGTH },
	{ "'pump':{'hours':{'x':1}}", "pump.hours", "a list of 12",
	  TARN_MISTAKE_LENGTH },
	{ "'pump':{'hours':[1,2,3,4,5,6,7,8,9,10,11,25]}", "pump.hours[12]",
	  "0 to 24, got 25", TARN_MISTAKE_RANGE },
	{ "'pump':{'hours':[1,2,3,4,5,6,7,8,9,10,11,12,13]}", "pump.hours",
	  "a list of 12", TARN_MISTAKE_LENGTH },
	/* switches */
	{ "'pump':{'check_valve':'yes'}", "pump.check_valve", "true or false",
	  TARN_MISTAKE_TYPE },
	{ "'pump':{'check_valve':1}", "pump.check_valve", "true or false",
	  TARN_MISTAKE_TYPE },
	/* pairs */
	{ "'pump':{'curve':[[0,4],5]}", "pump.curve[2]", "pair of numbers",
	  TARN_MISTAKE_TYPE },
	{ "'pump':{'curve':[[0,4],[]]}", "pump.curve[2]", "pair of numbers",
	  TARN_MISTAKE_TYPE },
	{ "'pump':{'curve':[[0,4],[1]]}", "pump.curve[2]", "pair of numbers",
	  TARN_MISTAKE_TYPE },
	{ "'pump':{'curve':[[0,4],[1,2,3]]}", "pump.curve[2]", "pair of numbers",
	  TARN_MISTAKE_TYPE },
	{ "'pump':{'curve':[[0,4],['a',1]]}", "pump.curve[2]", "pair of numbers",
	  TARN_MISTAKE_TYPE },
	{ "'pump':{'curve':[[0,4],[1,'a']]}", "pump.curve[2]", "pair of numbers",
	  TARN_MISTAKE_TYPE },
	{ "'pump':{'curve':[[0,4],{'a':1,'b':2}]}", "pump.curve[2]",
	  "pair of numbers", TARN_MISTAKE_TYPE },
	{ "'pump':{'curve':'x'}", "pump.curve", "a list, got string",
	  TARN_MISTAKE_TYPE },
	{ "'pump':{'curve':{'a':[1,2]}}", "pump.curve", "'a' stands between",
	  TARN_MISTAKE_TYPE },
	{ "'basin':{'table':[[0,1]]}", "basin.table", "2 to 100000 entries, got 1",
	  TARN_MISTAKE_LENGTH },
	/* words */
	{ "'basin':{'shape':'round'}", "basin.shape", "got round",
	  TARN_MISTAKE_CHOICE },
	{ "'basin':{'shape':5}", "basin.shape", "got 5", TARN_MISTAKE_CHOICE },
	{ "'supply':{'weekdays':['monday']}", "supply.weekdays",
	  "'monday' is none of \"mon\" .. \"sun\" or 1 .. 7",
	  TARN_MISTAKE_CHOICE },
	{ "'supply':{'weekdays':[0]}", "supply.weekdays", "'0' is none",
	  TARN_MISTAKE_CHOICE },
	{ "'supply':{'weekdays':[8]}", "supply.weekdays", "'8' is none",
	  TARN_MISTAKE_CHOICE },
	{ "'supply':{'weekdays':[1.5]}", "supply.weekdays", "'1.5' is none",
	  TARN_MISTAKE_CHOICE },
	{ "'supply':{'weekdays':[true]}", "supply.weekdays", "'true' is none",
	  TARN_MISTAKE_CHOICE },
	{ "'supply':{'weekdays':'mon'}", "supply.weekdays", "a list, got string",
	  TARN_MISTAKE_TYPE },
	{ "'supply':{'months':[13]}", "supply.months",
	  "'13' is none of \"jan\" .. \"dec\" or 1 .. 12", TARN_MISTAKE_CHOICE },
	/* dates */
	{ "'supply':{'open':[{'from':'02-30','to':'03-01'}]}",
	  "supply.open[1].from", "got 02-30", TARN_MISTAKE_TYPE },
	{ "'supply':{'open':[{'from':'2015-02-29','to':'2015-03-01'}]}",
	  "supply.open[1].from", "got 2015-02-29", TARN_MISTAKE_TYPE },
	{ "'supply':{'open':[{'from':'13-01','to':'03-01'}]}",
	  "supply.open[1].from", "got 13-01", TARN_MISTAKE_TYPE },
	{ "'supply':{'open':[{'from':5,'to':'03-01'}]}", "supply.open[1].from",
	  "got 5", TARN_MISTAKE_TYPE },
	{ "'supply':{'open':[{'to':'03-01'}]}", "supply.open[1].from",
	  "is missing", TARN_MISTAKE_MISSING },
	{ "'supply':{'open':5}", "supply.open", "a list, got number",
	  TARN_MISTAKE_TYPE },
	/* numbers by name */
	{ "'pipes':[{'length':2,'fittings':{'knee':2}}]", "pipes[1].fittings",
	  "'knee' is none of its names", TARN_MISTAKE_CHOICE },
	{ "'pipes':[{'length':2,'fittings':{'exit':'two'}}]",
	  "pipes[1].fittings.exit", "got the text \"two\"", TARN_MISTAKE_TYPE },
	{ "'pipes':[{'length':2,'fittings':{'exit':-1}}]",
	  "pipes[1].fittings.exit", "0 to 1000, got -1", TARN_MISTAKE_RANGE },
	{ "'pipes':[{'length':2,'fittings':[1]}]", "pipes[1].fittings",
	  "a table of numbers by name", TARN_MISTAKE_TYPE },
	{ "'pipes':[{'length':2,'fittings':5}]", "pipes[1].fittings",
	  "a table of numbers by name", TARN_MISTAKE_TYPE },
	/* lists */
	{ "'pipes':[5]", "pipes[1]", "a table of fields, got number",
	  TARN_MISTAKE_TYPE },
	{ "'bed':{'layers':[]}", "bed.layers", "1 to 100 entries, got 0",
	  TARN_MISTAKE_LENGTH },
	{ "'bed':{'layers':[{'thickness':0.2},5]}", "bed.layers[2]",
	  "a table of fields, got number", TARN_MISTAKE_TYPE },
	{ "'bed':{'layers':{'a':{'thickness':0.2}}}", "bed.layers",
	  "'a' stands between", TARN_MISTAKE_TYPE },
	{ "'overflow_lvel':1", "overflow_lvel", "did you mean 'overflow_level'",
	  TARN_MISTAKE_UNKNOWN },
};

Test(read, one_wrong_field)
{
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_error err;
		char text[300];

		snprintf(text, sizeof text, "{%s}", rows[i].text);
		for (char *c = text; *c; c++)
			if (*c == '\'')
				*c = '"';
		cr_expect(read_text(text, &err) == TARN_EARG, "%s", text);
		cr_expect(err.code == TARN_EARG);
		cr_expect_str_eq(err.field, rows[i].field, "%s: %s %s", text,
				 err.field, err.text);
		cr_expect(strstr(err.text, rows[i].part) != NULL, "%s: %s", text,
			  err.text);
		cr_expect((int)err.mistake == rows[i].mistake, "%s: %d", text,
			  (int)err.mistake);
	}
}

/* Ends that are taken; bit 1 is the first day, and the first month. */
Test(read, ends_that_are_taken)
{
	static const char text[] =
		"{\"overflow_level\":0.01,\"basin\":{\"length\":5,\"width\":4,"
		"\"depth\":15},\"supply\":{\"weekdays\":[1,\"tue\",7],"
		"\"months\":[1,12],\"open\":[{\"from\":\"2016-02-29\","
		"\"to\":\"2016-02-29\"}]},\"pump\":{\"hours\":[0,24,1,1,1,1,1,1,"
		"1,1,1,1],\"check_valve\":true},\"pipes\":[{\"length\":0,"
		"\"diameter\":0.05,\"to\":\"manifold\",\"fittings\":{\"exit\":0,"
		"\"90 elbow threaded\":1000}}],\"name\":\"%s\"}";
	char whole[900], name[102];
	struct tarn_design *d;
	struct tarn_error err = { 0 };

	memset(name, 'x', 100);
	name[100] = '\0';
	snprintf(whole, sizeof whole, text, name);
	cr_assert(tarn_design_read_json(&d, NULL, whole, strlen(whole), &err) ==
		  TARN_OK, "%s %s", err.field, err.text);
	cr_expect_str_eq(d->name, name);
	cr_expect(d->pond.overflow_level_m > 0.009 &&
		  d->pond.overflow_level_m < 0.011);
	cr_expect(d->pond.supply.when.weekdays == (1u << 1 | 1u << 2 | 1u << 7));
	cr_expect(d->pond.supply.when.months == (1u << 1 | 1u << 12));
	cr_expect(d->pond.supply.when.on_count == 1);
	cr_expect(d->pond.pump.check_valve == 1 && d->works.runs == 1);
	cr_expect(d->works.run[0].fittings == 2);
	tarn_design_free(d);
	strcpy(name + 100, "x");
	snprintf(whole, sizeof whole, text, name);
	cr_expect(tarn_design_read_json(&d, NULL, whole, strlen(whole), &err) ==
		  TARN_EARG && d == NULL);
	cr_expect_str_eq(err.field, "name");
}

/* A name is suggested where fewer than half of its letters, and of four, are
 * wrong. */
Test(read, a_path_that_is_no_field)
{
	static const struct { const char *path, *meant; } paths[] = {
		{ "nam", "name" }, { "nmae", "name" }, { "xy", NULL },
		{ "bed.widht", "bed.width" }, { "pump.hourz", "pump.hours" },
		{ "overflow_evel", "overflow_level" }, { "q", NULL },
		{ "no_such_thing", NULL },
	};
	struct tarn_design *d = tarn_design_new(NULL);

	for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
		struct tarn_value v = { .kind = TARN_VALUE_NUMBER, .number = 1 };
		struct tarn_error err = { 0 };
		char want[80];

		cr_expect(tarn_fields_set(&tarn_design_fields, d, paths[i].path,
					  &v, NULL, &err) == TARN_EARG);
		cr_expect_str_eq(err.field, paths[i].path);
		cr_expect((int)err.mistake == TARN_MISTAKE_UNKNOWN);
		snprintf(want, sizeof want, "did you mean '%s'?",
			 paths[i].meant ? paths[i].meant : "");
		cr_expect((strstr(err.text, paths[i].meant ? want : "mean") != NULL)
			  == (paths[i].meant != NULL), "%s: %s", paths[i].path,
			  err.text);
	}
	tarn_design_free(d);
}

/* The same in a description: two signs are no name with other letters. */
Test(read, a_name_of_other_letters_is_no_slip)
{
	static const struct { const char *name, *meant; } names[] = {
		{ "//", "" }, { " x", "" }, { "q", "" }, { "be", "bed" },
		{ "sties", "site" }, { "peumpx", "pump" }, { "pomxy", "" },
	};

	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
		struct tarn_error err;
		char text[60];

		snprintf(text, sizeof text, "{\"%s\":1}", names[i].name);
		cr_expect(read_text(text, &err) == TARN_EARG);
		cr_expect((int)err.mistake == TARN_MISTAKE_UNKNOWN);
		cr_expect_str_eq(err.near, names[i].meant, "%s: %s",
				 names[i].name, err.near);
	}
}

/* ---- paths ------------------------------------------------------------------- */

static struct tarn_design *two_points(void)
{
	static const char text[] =
		"{\"overflow_level\":0.9,\"basin\":{\"length\":5,\"width\":4,"
		"\"depth\":1},\"pump\":{\"curve\":[[0,4],[1e-3,2]]},\"bed\":"
		"{\"layers\":[{\"thickness\":0.2}]},\"pipes\":[{\"length\":2,"
		"\"diameter\":0.05,\"to\":\"manifold\"}]}";
	struct tarn_error err = { 0 };
	struct tarn_design *d;

	cr_assert(tarn_design_read_json(&d, NULL, text, sizeof text - 1, &err) ==
		  TARN_OK, "%s %s", err.field, err.text);
	return d;
}

/* What a path leads to: a number that is there (1), a place that a list grows by
 * (2), or nothing (0). */
Test(read, paths)
{
	static const struct { const char *path; int leads; } paths[] = {
		{ "overflow_level", 1 }, { "bed.area", 1 }, { "bed", 0 },
		{ "", 0 }, { "bed.", 0 }, { ".bed", 0 }, { "bed.area.", 0 },
		{ "bed.area[1]", 0 }, { "overflow_level.x", 0 },
		{ "pump.hours", 1 }, { "pump.hours.1", 1 },
		{ "pump.hours.12", 1 }, { "pump.hours.13", 0 },
		{ "pump.hours.0", 0 }, { "pump.hours.1x", 0 },
		{ "pump.hours.", 0 }, { "pump.hours[1]", 1 },
		{ "pump.hours[12]", 1 }, { "pump.hours[13]", 0 },
		{ "pump.curve[1][1]", 1 }, { "pump.curve[2][2]", 1 },
		{ "pump.curve[3][1]", 2 }, { "pump.curve[4][1]", 0 },
		{ "pump.curve[1][3]", 0 }, { "pump.curve[1][0]", 0 },
		{ "pump.curve[1]", 0 }, { "pump.curve[0][1]", 0 },
		{ "pump.curve[x][1]", 0 }, { "pump.curve[1][1]x", 0 },
		{ "pump.curve[1", 0 }, { "pump.curve[1][1", 0 },
		{ "pump.curve[10000000][1]", 0 }, { "pump.curve.1.1", 0 },
		{ "bed.layers[1].thickness", 1 },
		{ "bed.layers[2].thickness", 2 },
		{ "bed.layers[3].thickness", 0 }, { "bed.layers[1]", 0 },
		{ "bed.layers[1]thickness", 0 }, { "bed.layers.thickness", 0 },
		{ "bed.layers[1].nothing", 0 },
		{ "bed.layers[99999999].thickness", 0 },
		{ "pipes[1].length", 1 }, { "pipes[2].length", 2 },
		{ "pipes[1].fittings.exit", 2 },
		{ "pipes[1].fittings.knee", 0 }, { "pipes[1].fittings", 0 },
		{ "pipes[1].fittings[1]", 0 },
	};

	for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
		struct tarn_design *d = two_points();
		struct tarn_value v = { .kind = TARN_VALUE_NUMBER, .number = 1 };
		struct tarn_error err = { 0 };
		struct tarn_place at;
		double x = 0;
		int there = tarn_fields_place(&tarn_design_fields, d,
					      paths[i].path, &at, &err) == TARN_OK;

		cr_expect(there == (paths[i].leads == 1), "'%s' is %d",
			  paths[i].path, there);
		cr_expect(there || err.code == TARN_EARG);
		err = (struct tarn_error){ 0 };
		cr_expect((tarn_fields_set(&tarn_design_fields, d, paths[i].path,
					   &v, NULL, &err) == TARN_OK) ==
			  (paths[i].leads > 0), "set '%s': %s", paths[i].path,
			  err.text);
		if (paths[i].leads > 0) {
			cr_assert(tarn_fields_place(&tarn_design_fields, d,
						    paths[i].path, &at, NULL) ==
				  TARN_OK, "'%s'", paths[i].path);
			x = tarn_place_get(&at);
			cr_expect(x > 0.999 && x < 1.001, "'%s' is %g",
				  paths[i].path, x);
		}
		tarn_design_free(d);
	}
}

/* What is empty is what nobody gave, of each kind of field. */
Test(read, empty_fields)
{
	static const char *const fields[] = {
		"overflow_level", "name", "supply.weekdays", "supply.months",
		"bed.layers", "pump.curve", "basin.shape", "pump.hours",
	};
	static const char text[] =
		"{\"name\":\"x\",\"overflow_level\":0.9,\"basin\":{\"length\":5,"
		"\"width\":4,\"depth\":1},\"supply\":{\"weekdays\":[%s],"
		"\"months\":[2]},\"bed\":{\"layers\":[{\"thickness\":0.2}]},"
		"\"pump\":{\"curve\":[[0,4],[1e-3,2]]}}";
	struct tarn_design *none = tarn_design_new(NULL), *some;
	struct tarn_error err = { 0 };
	struct tarn_place at;
	char whole[400];

	snprintf(whole, sizeof whole, text, "1");
	cr_assert(tarn_design_read_json(&some, NULL, whole, strlen(whole), &err)
		  == TARN_OK, "%s %s", err.field, err.text);
	for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++) {
		int always = strcmp(fields[i], "basin.shape") == 0 ||
			     strcmp(fields[i], "pump.hours") == 0;

		if (tarn_fields_place(&tarn_design_fields, none, fields[i], &at,
				      NULL) != TARN_OK)
			continue;
		cr_expect(tarn_field_empty(at.row, at.object) == !always,
			  "%s of none", fields[i]);
		cr_assert(tarn_fields_place(&tarn_design_fields, some, fields[i],
					    &at, NULL) == TARN_OK);
		cr_expect(!tarn_field_empty(at.row, at.object), "%s",
			  fields[i]);
	}
	tarn_design_free(none);
	tarn_design_free(some);
}

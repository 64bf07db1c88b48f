/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tarn/design.h"

/* What does not fit together in a description: one thing said twice, or of two
 * kinds. */

#define POND "'overflow_level':0.9,"
#define BASIN "'basin':{'length':5,'width':4,'depth':1},"

static const struct {
	const char *text, *field, *part;	/* field NULL: it is taken */
} rows[] = {
	/* a basin by its table goes alone */
	{ POND "'basin':{'table':[[0,9],[1,12]]}", NULL, NULL },
	{ POND "'basin':{'table':[[0,9],[1,12]],'length':5}", "basin.length",
	  "is given beside table" },
	{ POND "'basin':{'table':[[0,9],[1,12]],'width':5}", "basin.width",
	  "is given beside table" },
	{ POND "'basin':{'table':[[0,9],[1,12]],'depth':1}", "basin.depth",
	  "is given beside table" },
	{ POND "'basin':{'table':[[0,9],[1,12]],'side_slope':0.2}",
	  "basin.side_slope", "is given beside table" },
	{ POND "'basin':{'table':[[0,9],[1,12]],'metered':9}", "basin.metered",
	  "is given beside table" },
	{ POND "'basin':{'table':[[0,9],[1,12]],'area_factor':0.8}",
	  "basin.area_factor", "is given beside table" },
	{ POND "'basin':{'table':[[0,9],[1,12]],'shelves':[{'depth':0.2,"
	  "'width':0.2}]}", "basin.shelves", "is given beside table" },
	{ POND "'basin':{'table':[[1,9],[0,12]]}", "basin.table", "" },
	{ POND "'basin':{'length':5}", "basin.width", "is missing" },
	{ POND "'basin':{'shelves':[{'depth':0.2,'width':0.2}]}",
	  "basin.length", "is missing" },
	{ "'overflow_level':1.01," BASIN "'name':'x'", "overflow_level",
	  "its top" },
	/* spans of a schedule */
	{ POND BASIN "'supply':{'open':[{'from':'2015-06-01','to':'2015-06-01'}]}",
	  NULL, NULL },
	{ POND BASIN "'supply':{'open':[{'from':'2015-06-01','to':'2015-05-31'}]}",
	  "supply.open[1]", "ends before it begins" },
	{ POND BASIN "'supply':{'closed':[{'from':'11-01','to':'03-01'},{'from':"
	  "'2015-06-01','to':'2015-05-31'}]}", "supply.closed[2]",
	  "ends before it begins" },
	{ POND BASIN "'supply':{'open':[{'from':'2015-06-01','to':'07-01'}]}",
	  "supply.open[1]", "mixes a date of one year" },
	{ POND BASIN "'supply':{'open':[{'from':'06-01','to':'2015-07-01'}]}",
	  "supply.open[1]", "mixes a date of one year" },
	{ POND BASIN "'withdrawals':[{'volume':0.1,'open':[{'from':'06-01','to':"
	  "'2015-07-01'}]}]", "withdrawals[1].open[1]", "mixes a date" },
	/* a pump's power, three ways */
	{ POND BASIN "'pump':{'watts':105,'amps':1,'volts':100}", NULL, NULL },
	{ POND BASIN "'pump':{'watts':106,'amps':1,'volts':100}", "pump.watts",
	  "amps and volts make 100 W" },
	/* layers and one stone */
	{ POND BASIN "'bed':{'area':4,'layers':[{'thickness':0.5,'diameter':0.02,"
	  "'porosity':0.4}],'depth':0.5}", "bed.depth", "beside bed.layers" },
	{ POND BASIN "'bed':{'area':4,'length':2,'width':3}", "bed.area",
	  "beside length and width" },
};

Test(design_limits, what_is_said_twice)
{
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_error err = { 0 };
		struct tarn_design *d;
		struct tarn_resolved made;
		enum tarn_status s;
		char text[400];

		snprintf(text, sizeof text, "{%s}", rows[i].text);
		for (char *c = text; *c; c++)
			if (*c == '\'')
				*c = '"';
		s = tarn_design_read_json(&d, NULL, text, strlen(text), &err);
		if (s == TARN_OK) {
			s = tarn_design_resolve(d, &made, &err);
			if (s == TARN_OK)
				tarn_resolved_free(&made);
		}
		cr_expect((s == TARN_OK) == (rows[i].field == NULL),
			  "%s: %s %s", text, err.field, err.text);
		if (rows[i].field) {
			cr_expect_str_eq(err.field, rows[i].field, "%s: %s %s",
					 text, err.field, err.text);
			cr_expect(strstr(err.text, rows[i].part) != NULL,
				  "%s: %s", text, err.text);
			cr_expect(!strstr(rows[i].part, "beside") ||
				  (int)err.mistake == TARN_MISTAKE_CONFLICT,
				  "%s: %d", text, (int)err.mistake);
		}
		tarn_design_free(d);
	}
}

/* Entries of a yard's lists for each side, and no more. */
Test(design_limits, sides_of_a_yard)
{
	struct tarn_yard_corner c[TARN_YARD_CORNERS];
	struct tarn_design *d = tarn_design_new(NULL);
	struct tarn_yard yard;
	struct tarn_error err = { 0 };

	tarn_design_set(d, "yard.length", 10, NULL);
	cr_expect(tarn_yard_wished(&d->yard, &yard, c, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "yard");
	tarn_design_set(d, "yard.width", 6, NULL);
	tarn_design_set(d, "yard.setback", 0.5, NULL);
	for (int i = 1; i <= 4; i++) {
		char path[40];

		snprintf(path, sizeof path, "yard.setbacks[%d]", i);
		tarn_design_set(d, path, i, NULL);
		snprintf(path, sizeof path, "yard.footings[%d]", i);
		tarn_design_set(d, path, 10 * i, NULL);
	}
	d->yard.setback_by_side_m[1] = d->yard.footing_by_side_m[2] = TARN_NAN;
	cr_assert(tarn_yard_wished(&d->yard, &yard, c, NULL) == TARN_OK);
	for (int i = 0; i < 4; i++) {
		double x = i == 1 || i == 2 ? 10 : 0, y = i >= 2 ? 6 : 0;

		cr_expect(fabs(c[i].x_m - x) < 1e-12 &&
			  fabs(c[i].y_m - y) < 1e-12, "corner %d", i);
		cr_expect(fabs(c[i].setback_m - (i == 1 ? 0.5 : i + 1)) < 1e-12,
			  "setback %d: %g", i, c[i].setback_m);
		cr_expect(i == 2 || fabs(c[i].footing_m - 10 * (i + 1)) < 1e-12,
			  "footing %d: %g", i, c[i].footing_m);
	}
	cr_expect(!(c[2].footing_m > 0));
	d->yard.footings = 5;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_yard_wished(&d->yard, &yard, c, &err) == TARN_EARG);
	cr_expect_str_eq(err.field, "yard.footings");
	cr_expect(strstr(err.text, "has 5 entries for 4 sides") != NULL, "%s",
		  err.text);
	d->yard.footings = 4;
	d->yard.setbacks = 6;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_yard_wished(&d->yard, &yard, c, &err) == TARN_EARG);
	cr_expect(strstr(err.text, "has 6 entries for 4 sides") != NULL, "%s",
		  err.text);
	tarn_design_free(d);
}

/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "tarn/works.h"

/* Small parts of the works, each by itself. */

Test(works_parts, diameter)
{
	struct tarn_pipe_run run = tarn_pipe_run_default();

	cr_expect(isnan(tarn_pipe_run_diameter_m(&run)));
	run.size = 6;	/* 2 inch, schedule 40: 2.067 in, ASME B36.10 */
	cr_expect(fabs(tarn_pipe_run_diameter_m(&run) / 0.0254 - 2.067) <
		  0.0005);
	run.diameter_m = 0.05;	/* given: it wins */
	cr_expect(tarn_pipe_run_diameter_m(&run) == 0.05);
}

Test(works_parts, running_level)
{
	struct tarn_pond p = tarn_pond_default();

	p.overflow_level_m = 1.1;
	p.trigger_m = p.target_m = TARN_NAN;
	cr_expect(tarn_running_level_m(&p) == 1.1);
	p.trigger_m = 0.9;
	cr_expect(tarn_running_level_m(&p) == 0.9);
	p.target_m = 1;
	cr_expect(tarn_running_level_m(&p) == 1);
}

Test(works_parts, defaults_and_check)
{
	const double level[] = { 0, 1.2 }, area[] = { 10, 10 };
	struct tarn_works w = tarn_works_default();
	struct tarn_pond p = tarn_pond_default();
	struct tarn_error err = { 0 };
	struct tarn_basin *b;

	cr_assert(tarn_basin_table(&b, NULL, level, area, 2, NULL) == TARN_OK);
	p.basin = b;
	p.overflow_level_m = 1.1;
	p.target_m = p.trigger_m = 1;
	cr_expect(tarn_works_check(&w, &p, &err) == TARN_OK, "%s", err.text);
	cr_expect(w.temp_c == 15);
	w.catchments = 1;	/* as the default made it: without an area */
	cr_expect(isnan(w.catchment[0].area_m2) &&
		  isnan(w.catchment[0].coefficient));
	cr_expect(tarn_works_check(&w, &p, &err) == TARN_EARG);
	cr_expect(strstr(err.field, "area") != NULL, "%s", err.field);
	w.catchments = 0;
	err = (struct tarn_error){ 0 };
	w.falls = 1;
	w.fall[0] = tarn_fall_default();
	cr_expect(tarn_works_check(&w, &p, &err) == TARN_EARG);
	cr_expect(strstr(err.field, "fall") != NULL, "a fall without a width: "
		  "%s", err.field);
	w.fall[0].width_m = 0.5;
	err = (struct tarn_error){ 0 };
	cr_expect(tarn_works_check(&w, &p, &err) == TARN_OK, "%s %s",
		  err.field, err.text);
	tarn_basin_free(b);
}

/* Any head is that of the fall in a pond, by the same weir; C L H^1.5. */
Test(works_parts, head_of_one_fall)
{
	static const struct {
		int kind;
		double coefficient, c;
	} rows[] = {
		{ TARN_FALL_BROAD, TARN_NAN, 1.705 },
		{ TARN_FALL_STONE, TARN_NAN, 1.6 },
		{ TARN_FALL_STONE, 1.2, 1.2 },
	};
	struct tarn_error err = { 0 };
	double head_m;

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct tarn_fall f = tarn_fall_default();

		f.kind = rows[i].kind;
		f.width_m = 0.5;
		f.coefficient = rows[i].coefficient;
		cr_expect(tarn_fall_head(&f, 2e-3, &head_m, NULL) == TARN_OK);
		cr_expect(fabs(rows[i].c * 0.5 * pow(head_m, 1.5) - 2e-3) <
			  1e-12, "row %zu", i);
		f.width_m = 0;
		cr_expect(tarn_fall_head(&f, 2e-3, &head_m, &err) ==
			  TARN_EARG);
		cr_expect_str_eq(err.field, "falls.width");
	}
}

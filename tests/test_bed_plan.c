/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "bed_rows.h"
#include "tarn/bed_plan.h"

/* ---- the wish --------------------------------------------------------------- */

Test(bed_plan, a_wish_takes_the_sizing_s_own_defaults)
{
	struct tarn_bed_wish w = tarn_bed_wish_default();
	struct tarn_sizing s = tarn_sizing_default();
	struct tarn_waste waste = tarn_waste_default();

	cr_expect(w.sphericity == s.sphericity && w.clogging == s.clogging);
	cr_expect(w.temp_c == s.temp_c && w.elevation_m == s.elevation_m);
	cr_expect(w.background_mgl == s.background_mgl);
	cr_expect(w.regime == s.regime && w.direction == s.direction);
	cr_expect(w.protein == waste.protein && w.ration == waste.ration);
	cr_expect(w.cover_m == 0);
	cr_expect(isnan(w.tanks) && isnan(w.flow_m3s) && isnan(w.feed_kg));
}

Test(bed_plan, every_section_checks_its_own_fields)
{
	static const char *const sections[TARN_BED_WISH_SECTIONS] = {
		"bed", "demand", "fish", "water", "treatment",
	};

	for (size_t i = 0; i < TARN_BED_WISH_SECTIONS; i++) {
		const struct tarn_fields *fields = tarn_bed_wish_sections[i];
		struct tarn_bed_wish w = tarn_bed_wish_default();
		const struct tarn_field *row = &fields->rows[0];
		double *value = (double *)(void *)((char *)&w + row->offset);
		struct tarn_error err = { 0 };
		char full[64];

		cr_expect_str_eq(fields->section, sections[i]);
		cr_expect(tarn_fields_check(fields, &w, &err) == TARN_OK);
		*value = row->lo;
		cr_expect(tarn_fields_check(fields, &w, &err) == TARN_OK);
		*value = -1;
		cr_expect(tarn_fields_check(fields, &w, &err) == TARN_EARG);
		snprintf(full, sizeof full, "%s.%s", sections[i], row->name);
		cr_expect_str_eq(err.field, full);
	}
}

/* The regimes and the ways are those of the sizing, word for word. */
Test(bed_plan, words_of_the_wish_are_the_sizing_s)
{
	static const char *const names[] = { "regime", "direction" };

	for (size_t i = 0; i < 2; i++) {
		const char *const *a =
			tarn_fields_find(&tarn_bed_wish_fields, names[i])
				->choices;
		const char *const *b =
			tarn_fields_find(&tarn_sizing_fields, names[i])
				->choices;

		while (*a && *b)
			cr_expect_str_eq(*a++, *b++);
		cr_expect(!*a && !*b);
	}
}

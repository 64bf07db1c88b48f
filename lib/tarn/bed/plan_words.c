/* SPDX-License-Identifier: MIT */
/* The names that a description has for the fields of the parts. */
#include <stdio.h>
#include <string.h>

#include "plan.h"

/* A prefix that ends in '.' takes the rest of the name along. */
static const struct {
	const char *ours, *described;
	const char *text;	/* in place of the part's own, or NULL */
} names[] = {
	{ "size.pond_target", "treatment.ammonia", NULL },
	{ "size.target", "treatment.outlet", NULL },
	{ "size.inlet", "treatment.inlet", NULL },
	{ "size.background", "treatment.background", NULL },
	{ "size.k_m_yr", "treatment.k", NULL },
	{ "size.k_low", "treatment.k_low", NULL },
	{ "size.k_high", "treatment.k_high", NULL },
	{ "size.ammonia_g", "treatment.ammonia",
	  "needs the load: describe the fish (feed or mass)" },
	{ "size.flow", "pump.flow", NULL },
	{ "size.pond_area", "basin", NULL },
	{ "size.pond_volume", "basin", NULL },
	{ "size", "bed", "has nothing to size by: give it length and width "
	  "(or area), loading, kind, surface_share or volume_share, or "
	  "describe fish or treatment" },
	{ "area", "bed.area", NULL },
	{ "depth", "bed.depth", NULL },
	{ "flow", "pump.flow", NULL },
	{ "size.", "bed.", NULL },
	{ "oxygen.", "water.", NULL },
	{ "waste.", "fish.", NULL },
};

enum tarn_status tn_plan_fail(struct tarn_error *from, struct tarn_error *err)
{
	char name[sizeof from->field];

	for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
		size_t n = strlen(names[i].ours);
		int prefix = names[i].ours[n - 1] == '.';

		if (prefix ? strncmp(from->field, names[i].ours, n) != 0
			   : strcmp(from->field, names[i].ours) != 0)
			continue;
		snprintf(name, sizeof name, "%s%s", names[i].described,
			 prefix ? from->field + n : "");
		strcpy(from->field, name);
		if (names[i].text)
			snprintf(from->text, sizeof from->text, "%s",
				 names[i].text);
		break;
	}
	if (err && err->code == TARN_OK)
		*err = *from;
	return from->code;
}

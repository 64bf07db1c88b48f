/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "tarn/base/rows.h"
#include "tarn/design/stages.h"

/* Sections and fields by the stage that they enter; what is not here is
 * plain.  A name that ends with a point or a bracket is a whole section. */
static const struct {
	const char *name;
	unsigned stage;
} stages[] = {
	{ "basin.", DESIGN_BASIN },
	{ "bed.area", DESIGN_TRANSIT }, { "bed.length", DESIGN_TRANSIT },
	{ "bed.width", DESIGN_TRANSIT }, { "bed.volume", DESIGN_TRANSIT },
	{ "bed.depth", DESIGN_TRANSIT }, { "bed.porosity", DESIGN_TRANSIT },
	{ "bed.cover", DESIGN_TRANSIT }, { "bed.layers[", DESIGN_TRANSIT },
	{ "bed.lip_head", DESIGN_TRANSIT }, { "bed.drop", DESIGN_TRANSIT },
	{ "overflow_level", DESIGN_WORKS }, { "trigger", DESIGN_WORKS },
	{ "target", DESIGN_WORKS }, { "intake", DESIGN_WORKS },
	{ "stream.factor", DESIGN_PLAIN }, { "stream.", DESIGN_TRANSIT },
	{ "pump.hours", DESIGN_PLAIN }, { "pump.watts", DESIGN_TRANSIT },
	{ "pump.amps", DESIGN_TRANSIT }, { "pump.volts", DESIGN_TRANSIT },
	{ "pump.", DESIGN_WORKS },
	{ "pipes[", DESIGN_WORKS }, { "falls[", DESIGN_TRANSIT },
	{ "catchments[", DESIGN_TRANSIT },
	{ "bay.", DESIGN_TRANSIT }, { "overflow.", DESIGN_TRANSIT },
	{ "storm.", DESIGN_TRANSIT },
	{ "evaporation.", DESIGN_WEATHER }, { "site.", DESIGN_WEATHER },
	{ "open_water_factor", DESIGN_WEATHER },
};

unsigned tn_design_stage_of(const char *given)
{
	char path[ROWS_PATH];

	tarn_fields_path_now(&tarn_design_fields, given, path, sizeof path);
	for (size_t i = 0; i < sizeof stages / sizeof stages[0]; i++) {
		size_t n = strlen(stages[i].name);
		char end = stages[i].name[n - 1];

		if (strncmp(path, stages[i].name, n) != 0)
			continue;
		if (end == '.' || end == '[' || path[n] == '\0' ||
		    path[n] == '.' || path[n] == '[')
			return stages[i].stage;
	}
	return DESIGN_PLAIN;
}

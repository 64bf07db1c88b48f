/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "internal.h"

#define CONSTANT struct tarn_constant
static const struct tarn_field constant_rows[] = {
	TARN_OUT_STRING(CONSTANT, name, "name", "what it is of"),
	TARN_OUT_NUMBER(CONSTANT, value, "value", "-", "value to use"),
	TARN_OUT_NUMBER(CONSTANT, lo, "lo", "-", "lowest of the sources"),
	TARN_OUT_NUMBER(CONSTANT, hi, "hi", "-", "highest of the sources"),
	TARN_OUT_STRING(CONSTANT, source, "source", "sources"),
};

TARN_FIELDS(tarn_constant_fields, "constant", constant_rows);

/* Tables of fittings differ; 'value' is the one of the source that stands
 * first, the span is that of all. */
#define A "Munson, Young & Okiishi, table 8.2 (from memory)"
#define B "span of a table after Streeter & Wylie, Miller, Rahmeyer, Kalsi & " \
	  "Tullis"
#define C "unattributed table of flanged fittings"
#define D "Munson, Young & Okiishi, fig. 8.22 (from memory)"

static const struct tarn_constant fittings[] = {
	{ "entrance flush", 0.5, 0.5, 0.5, D "; " B "; " C },
	{ "entrance projecting", 0.8, 0.5, 0.9, D "; " B },
	{ "entrance rounded", 0.25, 0.04, 0.5, C "; " B },
	{ "entrance bell", 0.05, 0.04, 0.05, C "; " B },
	{ "exit", 1.0, 1.0, 1.0, "Borda-Carnot, all speed lost" },
	{ "90 elbow threaded", 1.5, 0.3, 1.5, A "; " B },
	{ "90 elbow threaded long", 0.7, 0.3, 0.7, A "; " B },
	{ "90 elbow flanged", 0.3, 0.25, 0.6, A "; " C "; " B },
	{ "90 elbow flanged long", 0.2, 0.07, 0.33, A "; " C "; " B },
	{ "90 elbow miter", 1.1, 0.8, 1.1, B "; " C },
	{ "45 elbow threaded", 0.4, 0.1, 0.4, A "; " B },
	{ "45 elbow flanged long", 0.2, 0.1, 0.2, A "; " C "; " B },
	{ "tee run threaded", 0.9, 0.3, 0.9, A "; " C },
	{ "tee branch threaded", 2.0, 0.75, 2.0, A "; " C },
	{ "tee run flanged", 0.2, 0.2, 0.3, A "; " C },
	{ "tee branch flanged", 1.0, 0.75, 1.0, A "; " C },
	{ "gate open", 0.15, 0.1, 0.3, A "; " B "; " C },
	{ "ball valve", 0.04, 0.04, 0.04, C },
	{ "globe open", 10, 4, 10, A "; " B "; " C },
	{ "swing check", 2.0, 0.29, 2.2, A "; " B "; " C },
};

#undef A
#undef B
#undef C
#undef D

static const struct tarn_constant roughness[] = {
	{ "plastic", 1.5e-6, 0, 7e-6, "from memory; many tables give 0, smooth" },
	{ "steel", 4.6e-5, 4.5e-5, 4.6e-5,
	  "Maurer, Hydraulics and Water Resources, ex. 4.2 (4.6e-5 m)" },
	{ "galvanized iron", 1.5e-4, 1.5e-4, 1.5e-4, "from memory" },
	{ "cast iron", 2.6e-4, 2.6e-4, 2.6e-4,
	  "Cengel & Cimbala, Fluid Mechanics, ex. 8-8" },
	{ "concrete", 1e-3, 3e-4, 3e-3, "from memory" },
};

static const struct tarn_constant hazen_williams[] = {
	{ "plastic", 150, 140, 150,
	  "Illinois Admin. Code 77-906 App. A Exhibit I; low end from memory" },
	{ "steel new", 140, 130, 150, "from memory" },
	{ "cast iron old", 100, 60, 110, "from memory" },
};

#define CHOW "Chow 1959, table 5-6 (from memory)"

static const struct tarn_constant manning[] = {
	{ "pvc", 0.010, 0.009, 0.011, "common practice, no source" },
	{ "concrete", 0.013, 0.011, 0.015, CHOW },
	{ "excavated earth gravelly", 0.025, 0.022, 0.030, CHOW },
	{ "gravel channel", 0.029, 0.029, 0.029, "unattributed" },
	{ "natural clean straight", 0.030, 0.025, 0.033, CHOW },
	{ "excavated stony/cobbles", 0.035, 0.025, 0.040,
	  CHOW "; there with weedy banks" },
	{ "boulders, shallow", 0.050, 0.040, 0.100, "from memory; water no "
	  "deeper than the stones is outside Manning's law" },
};

static const struct tarn_constant runoff[] = {
	{ "pond surface", 1, 1, 1, "definition" },
	{ "roof", 0.85, 0.75, 0.95, "from memory" },
	{ "asphalt", 0.82, 0.70, 0.95, "from memory" },
	{ "lawn sandy flat", 0.08, 0.05, 0.10, "from memory" },
	{ "lawn heavy steep", 0.30, 0.25, 0.35, "from memory" },
};

/* C of Q = C L H^1.5 in m^0.5/s: the feet form times sqrt(0.3048). */
static const struct tarn_constant lips[] = {
	{ "sharp", 1.838, 1.82, 1.86, "Francis, 3.33 in feet" },
	{ "broad ideal", 1.705, 1.705, 1.705,
	  "critical depth without loss, (2/3)^1.5 sqrt(g)" },
	{ "broad square-edged", 1.45, 1.35, 1.83, "Bos 1989 (0.85 of ideal); "
	  "span Brater & King, 2.44 to 3.32 in feet" },
	{ "box inlet", 1.711, 1.711, 1.711,
	  "UFC 3-230-16FA eq. 7-1, 3.1 in feet" },
	{ "rough stone", 1.6, 1.3, 1.8, "common practice, no source; gaps "
	  "between stones take more" },
};

/* mg per mg of chlorine as Cl2. */
#define FIELD "field doses at pH 7, unattributed"

static const struct tarn_constant neutralisers[] = {
	{ "sodium bisulfite", 1.61, 1.47, 1.61, FIELD
	  "; low: stoichiometry" },
	{ "sodium metabisulfite", 1.47, 1.34, 1.47, FIELD
	  "; low: stoichiometry" },
	{ "sodium sulfite", 1.96, 1.78, 1.96, FIELD "; low: stoichiometry" },
	{ "sodium thiosulfate", 1.9, 0.56, 4.46, FIELD "; anhydrous; span: "
	  "complete oxidation to tetrathionate" },
	{ "sodium thiosulfate crystals", 7.0, 0.875, 7.0, "stoichiometry to "
	  "tetrathionate, pentahydrate: the safe end; low: complete "
	  "oxidation" },
	{ "calcium thiosulfate", 1.22, 1.22, 1.22, FIELD },
	{ "ascorbic acid", 2.5, 2.48, 2.5, FIELD "; low: 1:1 molar" },
	{ "sodium ascorbate", 2.8, 2.79, 2.8, FIELD "; low: 1:1 molar" },
};

#define TABLE(rows) { rows, FLOW_COUNT(rows) }

const struct tarn_constant *tarn_flow_table(enum tarn_flow_table which,
					    size_t *count)
{
	static const struct {
		const struct tarn_constant *rows;
		size_t count;
	} tables[TARN_FLOW_TABLES] = {
		[TARN_FITTINGS] = TABLE(fittings),
		[TARN_ROUGHNESS] = TABLE(roughness),
		[TARN_HAZEN_WILLIAMS] = TABLE(hazen_williams),
		[TARN_MANNING] = TABLE(manning),
		[TARN_RUNOFF] = TABLE(runoff),
		[TARN_LIPS] = TABLE(lips),
		[TARN_NEUTRALISERS] = TABLE(neutralisers),
	};
	size_t at = (size_t)which;

	*count = at < TARN_FLOW_TABLES ? tables[at].count : 0;
	return at < TARN_FLOW_TABLES ? tables[at].rows : NULL;
}

const struct tarn_constant *tarn_flow_constant(enum tarn_flow_table which,
					       const char *name)
{
	size_t count;
	const struct tarn_constant *rows = tarn_flow_table(which, &count);

	for (size_t i = 0; i < count; i++)
		if (strcmp(rows[i].name, name) == 0)
			return &rows[i];
	return NULL;
}

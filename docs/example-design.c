/* SPDX-License-Identifier: MIT */
/*
 * A description in JSON from C: read it, change a field by its path, see what
 * follows.
 *
 *     cc example-design.c $(pkg-config --cflags --libs tarn) -lm
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tarn.h"

static const char pond_json[] =
	"{ \"overflow_level\": 0.9, \"trigger\": 0.8,\n"
	"  \"basin\": { \"length\": 5, \"width\": 4, \"depth\": 1 },\n"
	"  \"bed\": { \"area\": 6, \"layers\": [\n"
	"    { \"thickness\": 0.4, \"porosity\": 0.4, \"diameter\": 0.02 } ] },\n"
	"  \"pump\": { \"curve\": [[0, 4], [0.001, 3], [0.003, 0]] },\n"
	"  \"pipes\": [ { \"to\": \"bed\", \"diameter\": 0.05, \"length\": 6,\n"
	"               \"lift\": 0.5 } ] }\n";

static int fail(const struct tarn_error *err)
{
	fprintf(stderr, "%s %s\n", err->field, err->text);
	return EXIT_FAILURE;
}

/* Flow, and all that the description left open. */
static void show(const struct tarn_resolved *r)
{
	printf("bed of %g m2 and %g m3, %.3g m3/s\n", r->pond.bed.area_m2,
	       r->pond.bed.volume_m3, r->pond.pump.flow_m3s);
	for (int i = 0; i < r->assumptions; i++)
		printf("  %s = %g: %s\n", r->assumption[i].path,
		       r->assumption[i].value, r->assumption[i].reason);
}

int main(void)
{
	struct tarn_error err = { 0 };
	struct tarn_design *design;
	struct tarn_resolved resolved;
	int status = EXIT_SUCCESS;

	if (tarn_design_read_json(&design, NULL, pond_json, strlen(pond_json),
				  &err) != TARN_OK)
		return fail(&err);
	if (tarn_design_set(design, "bed.layers[1].porosity", 0.35, &err) !=
		    TARN_OK ||
	    tarn_design_resolve(design, &resolved, &err) != TARN_OK) {
		status = fail(&err);
	} else {
		show(&resolved);
		tarn_resolved_free(&resolved);
	}
	tarn_design_free(design);
	return status;
}

/* SPDX-License-Identifier: MIT */
/*
 * A study on several threads, for the thread sanitizer: races show as its
 * warnings and exit status.  A plain program, since Criterion cannot run
 * under it.  See 'make tsan'.
 */
#include <stdio.h>
#include <string.h>

#include "../study_world.h"

enum { VARIANTS = 500, DAYS = 800 };

static int told(void *context, size_t done, size_t rows)
{
	*(size_t *)context = done;
	return done > rows;
}

int main(void)
{
	struct tarn_basin *basin = world_shelves();
	struct tarn_pond pond = world_pond(basin);
	struct world w;
	static double bed[VARIANTS], topup[2][VARIANTS];
	struct tarn_study_column column = { "bed.area", TARN_SET, bed };
	struct tarn_study study = tarn_study_default();
	size_t done = 0;

	world_make(&w, tarn_day(2000, 1, 1), DAYS, 2);
	for (int i = 0; i < VARIANTS; i++)
		bed[i] = 0.01 * i;
	bed[77] = -1;
	study.ponds = &pond;
	study.weathers = &w.forcing;
	study.columns = &column;
	study.column_count = 1;
	study.variants = VARIANTS;
	study.skip_bad = 1;
	study.progress = told;
	study.progress_context = &done;
	for (int i = 0; i < 2; i++) {
		struct tarn_study_rows rows = { .count = VARIANTS };

		study.threads = i ? 4 : 1;
		rows.value[TARN_Q_TOPUP] = topup[i];
		if (tarn_study_run(&study, &rows, NULL) != TARN_OK)
			return 1;
	}
	world_free(&w);
	tarn_basin_free(basin);
	if (memcmp(topup[0], topup[1], sizeof topup[0]) != 0)
		return 1;
	puts("same bytes on 1 and 4 threads");
	return 0;
}

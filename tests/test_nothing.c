/* SPDX-License-Identifier: MIT */
#include <criterion/criterion.h>
#include <string.h>

#include "study_world.h"
#include "tarn.h"

/* What could not be made is NULL, and never the pointer that stood there. */

static char there;

#define NOTHING(type, call) do { \
	type *out = (type *)(void *)&there; \
	enum tarn_status status = call; \
	cr_expect(status != TARN_OK, #call); \
	cr_expect(out == NULL, "%s leaves a pointer", #call); \
} while (0)

Test(nothing, basins_and_ledgers)
{
	const double level[] = { 0, 0 }, area[] = { 1, 1 };
	struct tarn_shelved shape = tarn_shelved_default();
	struct tarn_pond pond = tarn_pond_default();
	struct tarn_forcing none = { 0 };

	NOTHING(struct tarn_basin,
		tarn_basin_table(&out, NULL, level, area, 2, NULL));
	NOTHING(struct tarn_basin, tarn_basin_shelved(&out, NULL, &shape, NULL));
	NOTHING(struct tarn_ledger,
		tarn_ledger_run(&out, NULL, &pond, &none, NULL, NULL));
}

Test(nothing, weathers)
{
	const char text[] = "no date\n1\n";
	struct tarn_csv_map map = tarn_csv_map_default(), wrong = map;
	struct tarn_evaporation_options o = tarn_evaporation_options_default();
	struct tarn_ready wishes = tarn_ready_default();
	struct tarn_weather_change change = tarn_weather_change_default();
	struct tarn_weather *w;
	const long day = tarn_day(2020, 1, 1);

	wrong.skip_lines = -1;
	change.rain[0] = -1;
	wishes.first_day = day + 9;
	cr_assert(tarn_weather_new(&w, NULL, day, 3, NULL) == TARN_OK);
	NOTHING(struct tarn_weather, tarn_weather_new(&out, NULL, day, 0, NULL));
	NOTHING(struct tarn_weather,
		tarn_weather_slice(&out, w, day - 1, day, NULL));
	NOTHING(struct tarn_weather,
		tarn_weather_read(&out, NULL, "/no/such/file", &map, NULL, NULL));
	NOTHING(struct tarn_weather,
		tarn_weather_read_text(&out, NULL, text, sizeof text - 1, &map,
				       NULL, NULL));
	NOTHING(struct tarn_reader, tarn_reader_new(&out, NULL, &wrong, NULL));
	NOTHING(struct tarn_weather,
		tarn_weather_ready(&out, w, &o, &wishes, NULL, NULL));
	NOTHING(struct tarn_weather,
		tarn_weather_changed(&out, w, &change, NULL));
	NOTHING(struct tarn_weather,
		tarn_weather_generated(&out, NULL, w, 1, 0, day, 10, NULL));
	tarn_weather_free(w);
}

Test(nothing, descriptions_and_logs)
{
	struct tarn_log_options log = tarn_log_options_default();
	struct tarn_leak_options leak = tarn_leak_options_default();
	struct tarn_value table = { .kind = TARN_VALUE_NUMBER };
	struct tarn_pond pond = tarn_pond_default();
	struct tarn_forcing none = { 0 };

	NOTHING(struct tarn_design, tarn_design_read(&out, NULL, &table, NULL));
	NOTHING(struct tarn_design, tarn_design_read_json(&out, NULL, "{", 1,
							  NULL));
	NOTHING(struct tarn_log,
		tarn_log_read(&out, NULL, "/no/such/file", &log, NULL));
	NOTHING(struct tarn_leak,
		tarn_leak_fit(&out, NULL, &pond, &none, NULL, 0, &leak, NULL));
}

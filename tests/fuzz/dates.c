/* SPDX-License-Identifier: MIT */
#include <string.h>

#include "fuzz.h"
#include "tarn/weather_file.h"

/*
 * Dates: each line of the input is one, quoted, beside a day's rain.  What was
 * read by itself must be the same when the order that was found is asked for,
 * and the days must lie where dates may.
 */

static size_t write_file(char *to, const char *text, size_t size)
{
	size_t n = (size_t)sprintf(to, "date,rain_mm\n\"");

	for (size_t i = 0; i < size; i++) {
		if (text[i] == '\n')
			n += (size_t)sprintf(to + n, "\",1\n\"");
		else if (text[i] != '"')
			to[n++] = text[i];
	}
	return n + (size_t)sprintf(to + n, "\",1\n");
}

static struct tarn_weather *read(const char *text, size_t n,
				 enum tarn_csv_dates dates)
{
	struct tarn_csv_map map = tarn_csv_map_default();
	struct tarn_read_report report;
	struct tarn_error err = { 0 };
	struct tarn_weather *w;
	enum tarn_status status;

	map.dates = dates;
	status = tarn_weather_read_text(&w, NULL, text, n, &map, &report,
					&err);
	MUST((status == TARN_OK) == (w != NULL));
	MUST(status == err.code);
	MUST(status == TARN_OK || (err.text[0] && !strchr(err.text, '\n')));
	return w;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	static char text[6 * INPUT_MAX];
	struct tarn_weather *w;
	size_t n;
	int same = 0, any = 0;

	if (size == 0 || size > 4096)
		return 0;
	n = write_file(text, (const char *)data, size);
	w = read(text, n, TARN_DATES_DEFAULT);
	for (int d = TARN_DATES_ISO; w && d <= TARN_DATES_EUROPEAN; d++) {
		struct tarn_weather *again = read(text, n,
						  (enum tarn_csv_dates)d);

		any += again != NULL;
		same += again && tarn_weather_first(again) ==
					 tarn_weather_first(w) &&
			tarn_weather_days(again) == tarn_weather_days(w);
		tarn_weather_free(again);
	}
	MUST(any == 0 || same > 0);
	if (w) {
		long last = tarn_weather_first(w) +
			    (long)tarn_weather_days(w) - 1;

		MUST(tarn_weather_first(w) >= TARN_DAY_MIN &&
		     last <= TARN_DAY_MAX);
	}
	tarn_weather_free(w);
	return 0;
}

/* SPDX-License-Identifier: MIT */
#include "state.h"

#include <math.h>

/*
 * A level log.  The first byte says which options go with it: 'I', 'D' and
 * 'C' are those of an inch ruler, of dates day first, of a ruler in cm that
 * counts up; any other: what the header says, and the byte belongs to it.
 */
static size_t options_of(uint8_t first, struct tarn_log_options *o)
{
	switch (first) {
	case 'I':
		o->unit = TARN_LOG_INCH;
		o->dates = TARN_LOG_MDY;
		return 1;
	case 'D':
		o->dates = TARN_LOG_DMY;
		return 1;
	case 'C':
		o->unit = TARN_LOG_CM;
		o->sign = TARN_LOG_UP;
		return 1;
	default:
		return 0;
	}
}

static void check_readings(const struct tarn_log *log)
{
	size_t count;
	const struct tarn_reading *r = tarn_log_readings(log, &count);
	struct tarn_log_info info = tarn_log_info(log);

	MUST(info.levels <= count && info.meters <= count);
	for (size_t i = 0; i < count; i++) {
		MUST(r[i].day >= TARN_DAY_MIN && r[i].day <= TARN_DAY_MAX);
		MUST(isnan(r[i].hour) || (r[i].hour >= 0 && r[i].hour <= 24));
		MUST(isnan(r[i].level_m) || isfinite(r[i].level_m));
		MUST(isnan(r[i].meter_m3) || r[i].meter_m3 >= 0);
		MUST(i == 0 || r[i].day >= r[i - 1].day);
	}
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	struct tarn_log_options options = tarn_log_options_default();
	struct tarn_error err = { 0 };
	struct tarn_log *log;
	enum tarn_status status;
	size_t from;

	if (size == 0)
		return 0;
	from = options_of(data[0], &options);
	status = tarn_log_read(&log, NULL, fuzz_file(data + from, size - from),
			       &options, &err);
	MUST((status == TARN_OK) == (log != NULL) && status == err.code);
	MUST(status == TARN_OK || status == TARN_EFORMAT ||
	     status == TARN_EARG);
	if (status == TARN_OK)
		check_readings(log);
	else
		MUST(err.text[0] && !strchr(err.text, '\n'));
	tarn_log_free(log);
	return 0;
}

/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

#include "tarn/base/rows.h"
#include "tarn/design/stages.h"
#include "tarn/pond/basin.h"
#include "tarn/study.h"

/*
 * Folds words into 64 bits: multiply by an odd constant (2^64 over the golden
 * ratio), then let the high half act on the low one.  A changed word changes
 * the state for certain, and about half of the later bits.
 */
static void word(uint64_t *h, uint64_t w)
{
	*h = (*h ^ w) * 0x9E3779B97F4A7C15u;
	*h ^= *h >> 32;
}

static void number(uint64_t *h, double x)
{
	uint64_t w = 1;		/* no value */

	if (!isnan(x)) {
		x += 0.0;	/* -0 is 0 */
		memcpy(&w, &x, sizeof w);
	}
	word(h, w);
}

static void numbers(uint64_t *h, const double *x, size_t count)
{
	word(h, count);
	for (size_t i = 0; i < count; i++)
		number(h, x[i]);
}

static void text(uint64_t *h, const char *s)
{
	word(h, strlen(s));
	for (; *s; s++)
		word(h, (unsigned char)*s);
}

static void spans(uint64_t *h, const struct tarn_span *s, int count)
{
	word(h, (uint64_t)count);
	for (int i = 0; i < count; i++) {
		word(h, (uint64_t)s[i].first_day);
		word(h, (uint64_t)s[i].last_day);
		word(h, (uint64_t)s[i].first_mmdd);
		word(h, (uint64_t)s[i].last_mmdd);
	}
}

static void schedule(uint64_t *h, const struct tarn_schedule *s)
{
	word(h, s->weekdays);
	word(h, s->months);
	spans(h, s->on, s->on_count);
	spans(h, s->off, s->off_count);
}

static void fields(uint64_t *h, const struct tarn_fields *f, const void *object)
{
	for (size_t i = 0; i < f->count; i++) {
		double value[12];
		size_t n = f->rows[i].kind == TARN_FIELD_MONTHS ? 12 : 1;

		memcpy(value, (const char *)object + f->rows[i].offset,
		       n * sizeof value[0]);
		numbers(h, value, n);
	}
}

static void pond(uint64_t *h, const struct tarn_pond *p)
{
	numbers(h, p->basin->level_m, p->basin->rows);
	numbers(h, p->basin->area_m2, p->basin->rows);
	for (size_t i = 0; tarn_pond_sections[i]; i++)
		fields(h, tarn_pond_sections[i], p);
	schedule(h, &p->supply.when);
	word(h, (uint64_t)p->withdrawals);
	for (int i = 0; i < p->withdrawals; i++) {
		number(h, p->withdrawal[i].volume_m3);
		schedule(h, &p->withdrawal[i].when);
	}
}

static void weather(uint64_t *h, const struct tarn_forcing *w)
{
	word(h, (uint64_t)w->first_day);
	numbers(h, w->rain_mm, w->days);
	numbers(h, w->open_water_mm, w->days);
	numbers(h, w->grass_mm, w->days);
}

/* ---- descriptions ------------------------------------------------------------- */

static void described(uint64_t *h, const struct tarn_fields *f,
		      const void *object);

static void listed(uint64_t *h, const struct tarn_field *row,
		   const void *object)
{
	int count = tn_rows_count(row, object);
	size_t each = row->kind == TARN_FIELD_PAIRS ? 2 : 1;

	word(h, (uint64_t)count);
	for (int i = 0; i < count; i++)
		if (row->of)
			described(h, row->of, tn_rows_entry(row, object, i));
		else
			numbers(h, (const double *)(const void *)
				   tn_rows_entry(row, object, i), each);
}

/* All that a description says but its texts and days. */
static void described(uint64_t *h, const struct tarn_fields *f,
		      const void *object)
{
	for (size_t i = 0; i < f->count; i++) {
		const struct tarn_field *row = &f->rows[i];
		const char *at = (const char *)object + row->offset;
		double x[12];
		int whole;

		switch (row->kind) {
		case TARN_FIELD_NUMBER:
		case TARN_FIELD_MONTHS:
			whole = row->kind == TARN_FIELD_MONTHS ? 12 : 1;
			memcpy(x, at, (size_t)whole * sizeof *x);
			numbers(h, x, (size_t)whole);
			break;
		case TARN_FIELD_CHOICE:
		case TARN_FIELD_SWITCH:
			memcpy(&whole, at, sizeof whole);
			word(h, (uint64_t)whole);
			break;
		case TARN_FIELD_SECTION:
			described(h, row->of, at);
			break;
		case TARN_FIELD_NUMBERS:
		case TARN_FIELD_PAIRS:
		case TARN_FIELD_LIST:
		case TARN_FIELD_COUNTS:
			listed(h, row, object);
			break;
		default:
			break;
		}
	}
}

static void measured(uint64_t *h, const struct tarn_study_sky *sky)
{
	size_t days = tarn_weather_days(sky->weather);

	word(h, (uint64_t)sky->method);
	for (int c = 0; c < TARN_COLUMNS; c++) {
		const double *x = tarn_weather_column(sky->weather,
						      (enum tarn_column)c);

		if (x)
			numbers(h, x, days);
	}
}

/* By the name that it has now. */
static void field(uint64_t *h, const char *given)
{
	char path[ROWS_PATH];

	tarn_fields_path_now(&tarn_design_fields, given, path, sizeof path);
	text(h, path);
}

/* Only where a column makes the pond follow anew from them. */
static void designs(uint64_t *h, const struct tarn_study *s)
{
	int follows = 0;

	for (size_t i = 0; s->designs && i < s->column_count; i++)
		follows |= tn_design_stage_of(s->columns[i].field) !=
			   DESIGN_PLAIN;
	for (size_t i = 0; follows && i < s->pond_count; i++)
		described(h, &tarn_design_fields, s->designs[i]);
	for (size_t i = 0; follows && s->skies && i < s->weather_count; i++)
		measured(h, &s->skies[i]);
}

uint64_t tarn_study_fingerprint(const struct tarn_study *s)
{
	uint64_t h = 0;

	text(&h, tarn_version());
	word(&h, s->pond_count);
	for (size_t i = 0; i < s->pond_count; i++)
		pond(&h, &s->ponds[i]);
	word(&h, s->weather_count);
	for (size_t i = 0; i < s->weather_count; i++)
		weather(&h, &s->weathers[i]);
	word(&h, s->column_count);
	for (size_t i = 0; i < s->column_count; i++) {
		field(&h, s->columns[i].field);
		word(&h, (uint64_t)s->columns[i].change);
		numbers(&h, s->columns[i].value, s->variants);
	}
	designs(&h, s);
	word(&h, s->variants);
	for (size_t i = 0; i < s->variants && s->pond_of; i++)
		word(&h, s->pond_of[i]);
	number(&h, s->run.start_level_m);
	word(&h, (uint64_t)(s->run.no_topup != 0));
	word(&h, (uint64_t)(s->run.start_stopped != 0));
	return h;
}

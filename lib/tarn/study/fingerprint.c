/* SPDX-License-Identifier: MIT */
#include <math.h>
#include <string.h>

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
		text(&h, s->columns[i].field);
		word(&h, (uint64_t)s->columns[i].change);
		numbers(&h, s->columns[i].value, s->variants);
	}
	word(&h, s->variants);
	for (size_t i = 0; i < s->variants && s->pond_of; i++)
		word(&h, s->pond_of[i]);
	number(&h, s->run.start_level_m);
	word(&h, (uint64_t)(s->run.no_topup != 0));
	word(&h, (uint64_t)(s->run.start_stopped != 0));
	return h;
}

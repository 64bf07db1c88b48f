/* SPDX-License-Identifier: MIT */
#include <stdio.h>

#include "../leak_trials.h"

/*
 * How often the intervals of the leak fit hold the truth, how often a sound
 * pond is put outside, a loss found, a pond that a valve fills reassured: over
 * invented ponds (tests/leak_world.h).  Prints the tables of
 * docs/methods/leak.md.
 *
 *     leak_coverage [ponds]        600 a cell by default
 */

static double percent(int part, int whole)
{
	return whole ? 100.0 * part / whole : 0;
}

static const char *const sites[] = {
	[SITE_DESCRIBED] = "wind and sun by their classes",
	[SITE_UNDESCRIBED] = "nothing described",
	[SITE_SUN_ALONE] = "the sun alone",
	[SITE_PAVED] = "wind, sun, paving",
	[SITE_MEASURED] = "the ratio measured",
	[SITE_OASIS] = "described; oasis of 1 to 1.4, unsaid",
	[SITE_OASIS_UNDESCRIBED] = "nothing described; such an oasis",
	[SITE_LOW] = "described; truth 0.7 of the model",
	[SITE_STATION_OFF] = "described; station over the hill",
	[SITE_SLOW_WAVE] = "described; a yearly wave of 17 %",
	[SITE_EVEN] = "nothing described; shelter 0.3 to 0.8, sun 0.65 to 1",
};
static const size_t weeks[] = { 2, 4, 6, 8 };
#define WEEKS (sizeof weeks / sizeof weeks[0])

static void put_row(const char *name, const char *meter, int site, int filled,
		    int ponds)
{
	struct trials t[WEEKS];

	for (size_t k = 0; k < WEEKS; k++) {
		struct world_order o = { .site = site, .filled = filled,
					 .days = 7 * weeks[k] };

		t[k] = try_losses(&o, ponds, 1000000 * (k + 1));
	}
	printf("| %s | %s |", name, meter);
	for (size_t k = 0; k < WEEKS; k++)
		printf(" %.1f |", percent(t[k].held, t[k].ponds));
	for (size_t k = 0; k < WEEKS; k++)
		printf(" %.1f |", percent(t[k].alarms, t[k].sound));
	for (size_t k = 0; k < WEEKS; k++)
		printf(" %.1f |", percent(t[k].found, t[k].lossy));
	printf(" %.1f |\n", t[1].width / t[1].ponds);
	fflush(stdout);
}

static void cover(int ponds)
{
	printf("| site | filled | s held, 2 wk | 4 | 6 | 8 | alarms, 2 wk | 4 | "
	       "6 | 8 | 5 mm/d found, 2 wk | 4 | 6 | 8 | width, 4 wk |\n|");
	for (int i = 0; i < 15; i++)
		printf(" --- |");
	printf("\n");
	for (int site = 0; site < SITE_FIT_OWN; site++)
		put_row(sites[site], "by hand", site, FILLED_BY_HAND, ponds);
	for (int site = 0; site < 2; site++) {
		put_row(sites[site], "through a meter", site, FILLED_METERED,
			ponds);
		put_row(sites[site], "by a float, meter alone", site,
			FILLED_FLOAT_METERED, ponds);
	}
}

/* Share that is called inside: of sound ponds, and of those that a valve
 * fills. */
static void reassured(int ponds)
{
	static const struct { int filled; double loss_mm_d; } cases[] = {
		{ FILLED_BY_HAND, 0 }, { FILLED_BY_HAND, 2 },
		{ FILLED_VALVE, 0 }, { FILLED_VALVE, 2 }, { FILLED_VALVE, 5 },
		{ FILLED_VALVE_DESCRIBED, 5 }
	};

	printf("\n| weeks | site | sound, no valve | loses 2 mm/d | valve | valve, "
	       "loses 2 | valve, loses 5 | valve described, loses 5 |\n"
	       "| --- | --- | --- | --- | --- | --- | --- | --- |\n");
	for (size_t k = 0; k < WEEKS; k++)
		for (int site = 0; site < 2; site++) {
			printf("| %zu | %s |", weeks[k], sites[site]);
			for (size_t c = 0; c < sizeof cases / sizeof cases[0];
			     c++) {
				struct world_order o = {
					.site = site, .days = 7 * weeks[k],
					.filled = cases[c].filled,
					.loss_mm_d = cases[c].loss_mm_d,
				};
				struct trials t = try_ponds(
					&o, ponds, 70000000 + 1000000 * k);

				printf(" %.1f |", percent(t.inside, t.ponds));
			}
			printf("\n");
			fflush(stdout);
		}
}

static void steps(int ponds)
{
	static const double step[] = { 0, 3, 6, 12 };

	printf("\n| step, mm/d | found | of these, date held |\n"
	       "| --- | --- | --- |\n");
	for (size_t k = 0; k < sizeof step / sizeof step[0]; k++) {
		struct world_order o = { .site = SITE_DESCRIBED, .days = 56,
					 .step_mm_d = step[k], .step_day = 28 };
		struct trials t = try_ponds(&o, ponds, 50000000);

		printf("| %g | %.1f | %.1f |\n", step[k],
		       percent(t.steps, t.ponds),
		       step[k] > 0 ? percent(t.dates, t.steps) : 0);
	}
}

static void ranks(int ponds)
{
	printf("\n| weeks | ponds | chi-square of s | of f | 95 %% of 9 degrees "
	       "|\n| --- | --- | --- | --- | --- |\n");
	for (size_t k = 1; k < WEEKS; k += 2) {
		double s, f;

		rank_ponds(7 * weeks[k], ponds, 90000000 * (k + 1), &s, &f);
		printf("| %zu | %d | %.1f | %.1f | %.1f |\n", weeks[k], ponds,
		       s, f, CHI_SQUARE_9_95);
	}
}

int main(int argc, char **argv)
{
	int ponds = argc > 1 ? atoi(argv[1]) : 600;

	cover(ponds);
	reassured(ponds / 2);
	steps(ponds / 2);
	ranks(3 * ponds);
	return 0;
}

/* SPDX-License-Identifier: MIT */
#include <stdio.h>

#include "../leak_sim.h"

/*
 * How often the intervals of the leak fit hold the truth, and how often a
 * sound pond is put outside: over simulated ponds (tests/leak_sim.h).  Prints
 * the tables of docs/methods/leak.md.
 *
 *     leak_coverage [ponds]        1000 by default
 */

struct tally {
	int ponds, evaporation, rain, loss, inside, outside, gains, cannot;
	int found, step_held, failed;
	double width;
};

static int held(const struct tarn_estimate *e, double truth)
{
	return e->low <= truth && truth <= e->high;
}

static void count_pond(struct tally *t, const struct sim *s,
		       const struct tarn_leak_result *r, double loss_mm_d)
{
	t->ponds++;
	t->evaporation += held(&r->evaporation_factor, s->evaporation);
	t->rain += held(&r->rain_factor, s->rain);
	t->loss += held(&r->unexplained_mm_d, loss_mm_d);
	t->inside += r->verdict == TARN_INSIDE;
	t->outside += r->verdict == TARN_OUTSIDE;
	t->cannot += r->verdict == TARN_CANNOT_TELL;
	t->gains += r->gains;
	t->found += r->change.found;
	t->step_held += r->change.found && s->step_day != TARN_NO_DAY &&
			r->change.first_day <= s->step_day &&
			s->step_day <= r->change.last_day;
	t->width += r->unexplained_mm_d.high - r->unexplained_mm_d.low;
}

static struct tally try_ponds(int ponds, struct sim_order order, double most,
			      uint64_t seed)
{
	static struct sim s;
	struct tally t = { 0 };
	struct tarn_leak_options o = sim_options();

	for (int i = 0; i < ponds; i++) {
		struct sim_order now = order;
		struct tarn_leak *leak;

		s.state = seed + (uint64_t)i;
		now.loss_mm_d = most * sim_uniform(&s);
		if (order.step_mm_d > 0)
			now.step_day = (size_t)sim_between(
				&s, 5, (double)order.days - 5);
		sim_make(&s, seed + (uint64_t)i, &now);
		if (tarn_leak_fit(&leak, NULL, &s.pond, &s.forcing, s.readings,
				  s.count, &o, NULL) == TARN_OK) {
			count_pond(&t, &s, tarn_leak_result(leak),
				   now.loss_mm_d);
			tarn_leak_free(leak);
		} else {
			t.failed++;
		}
		sim_free(&s);
	}
	return t;
}

static double percent(int part, int whole)
{
	return whole ? 100.0 * part / whole : 0;
}

static void cover(int ponds)
{
	static const size_t days[] = { 7, 14, 30, 60, 120 };

	printf("| days | ponds | f | r | s | width of s, mm/d |\n"
	       "| --- | --- | --- | --- | --- | --- |\n");
	for (size_t k = 0; k < sizeof days / sizeof days[0]; k++) {
		struct sim_order order = { days[k], 0, 0, 0, 0.02 };
		struct tally t = try_ponds(ponds, order, 8, 1000000 * (k + 1));

		printf("| %zu | %d | %.1f | %.1f | %.1f | %.2f |\n", days[k],
		       t.ponds, percent(t.evaporation, t.ponds),
		       percent(t.rain, t.ponds), percent(t.loss, t.ponds),
		       t.width / t.ponds);
	}
}

static void alarm_rates(int ponds)
{
	static const size_t days[] = { 7, 14, 30, 60, 120 };
	static const double loss[] = { 0, 1, 3, 6, 12 };

	printf("\n| days | loss, mm/d | inside | cannot tell | outside | gains "
	       "|\n| --- | --- | --- | --- | --- | --- |\n");
	for (size_t k = 0; k < sizeof days / sizeof days[0]; k++)
		for (size_t l = 0; l < sizeof loss / sizeof loss[0]; l++) {
			static struct sim s;
			struct sim_order order = { days[k], loss[l], 0, 0,
						   0.02 };
			struct tally t = { 0 };
			struct tarn_leak_options o = sim_options();

			for (int i = 0; i < ponds; i++) {
				struct tarn_leak *leak;

				sim_make(&s, 70000000 + 100000 * (k * 10 + l) +
					     (uint64_t)i, &order);
				if (tarn_leak_fit(&leak, NULL, &s.pond,
						  &s.forcing, s.readings,
						  s.count, &o, NULL) ==
				    TARN_OK) {
					count_pond(&t, &s,
						   tarn_leak_result(leak),
						   loss[l]);
					tarn_leak_free(leak);
				}
				sim_free(&s);
			}
			printf("| %zu | %g | %.1f | %.1f | %.1f | %.1f |\n",
			       days[k], loss[l], percent(t.inside, t.ponds),
			       percent(t.cannot, t.ponds),
			       percent(t.outside, t.ponds),
			       percent(t.gains, t.ponds));
		}
}

/* How often a level is found to be held. */
static double held_found(int ponds, const struct sim_order *order,
			 uint64_t seed)
{
	static struct sim s;
	struct tarn_leak_options o = sim_options();
	int found = 0, all = 0;

	for (int i = 0; i < ponds; i++) {
		struct tarn_leak *leak;

		sim_make(&s, seed + (uint64_t)i, order);
		if (tarn_leak_fit(&leak, NULL, &s.pond, &s.forcing, s.readings,
				  s.count, &o, NULL) == TARN_OK) {
			all++;
			found += tarn_leak_result(leak)->held.found;
			tarn_leak_free(leak);
		}
		sim_free(&s);
	}
	return percent(found, all);
}

static void held_levels(int ponds)
{
	static const size_t days[] = { 7, 14, 30, 60, 120 };
	static const struct sim_order cases[] = {
		{ 0, 0, 0, 0, 0.02, 0, 0 }, { 0, 3, 0, 0, 0.02, 0, 0 },
		{ 0, 12, 0, 0, 0.02, 0, 0 }, { 0, 0, 0, 0, 0.02, 1, 0 },
		{ 0, 3, 0, 0, 0.02, 1, 0 }, { 0, 0, 0, 0, 0.02, 1, 0.005 },
		{ 0, 0, 0, 0, 0.02, 1, 0.01 }, { 0, 0, 0, 0, 0.02, 2, 0 },
		{ 0, 0, 0, 0, 0.02, 2, 0.01 }
	};

	printf("\n| days | sound | loss 3 mm/d | loss 12 mm/d | valve | valve, "
	       "loss 3 | opens at 5 mm | at 10 mm | valve described | at 10 mm "
	       "|\n| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- "
	       "|\n");
	for (size_t k = 0; k < sizeof days / sizeof days[0]; k++) {
		printf("| %zu |", days[k]);
		for (size_t c = 0; c < sizeof cases / sizeof cases[0]; c++) {
			struct sim_order order = cases[c];

			order.days = days[k];
			printf(" %.1f |", held_found(ponds, &order, 90000000 +
						     100000 * (k * 10 + c)));
		}
		printf("\n");
	}
}

static void steps(int ponds)
{
	static const double step[] = { 0, 3, 6, 12 };

	printf("\n| step, mm/d | found | of these, date held |\n"
	       "| --- | --- | --- |\n");
	for (size_t k = 0; k < sizeof step / sizeof step[0]; k++) {
		struct sim_order order = { 60, 0, step[k], 30, 0.02 };
		struct tally t = try_ponds(ponds, order, 0,
					   50000000 + 1000000 * k);

		if (step[k] > 0)
			printf("| %g | %.1f | %.1f |\n", step[k],
			       percent(t.found, t.ponds),
			       percent(t.step_held, t.found));
		else
			printf("| 0 | %.1f | - |\n",
			       percent(t.found, t.ponds));
	}
}

int main(int argc, char **argv)
{
	int ponds = argc > 1 ? atoi(argv[1]) : 1000;

	cover(ponds);
	alarm_rates(ponds);
	steps(ponds);
	held_levels(ponds);
	return 0;
}

/* SPDX-License-Identifier: MIT */
#include "internal.h"

#define OUT struct tarn_pipe_total
static const struct tarn_field total_rows[] = {
	TARN_OUT_NUMBER(OUT, flow_m3s, "flow", "m3/s", "flow of all"),
	TARN_OUT_NUMBER(OUT, headloss_m, "headloss", "m", "head lost, in all"),
	TARN_OUT_NUMBER(OUT, volume_m3, "volume", "m3", "water in all"),
};

TARN_FIELDS(tarn_pipe_total_fields, "pipes", total_rows);

/* Pipes end to end and side by side. */

struct several {
	const struct tarn_pipe *pipes;
	size_t count;
};

double tarn_pipes_headloss_m(const struct tarn_pipe *pipes, size_t count,
			     double flow_m3s)
{
	double sum = 0;

	if (!(flow_m3s >= 0))
		return TARN_NAN;
	for (size_t i = 0; i < count; i++) {
		struct flow_run run = tn_flow_run_make(&pipes[i],
						       pipes[i].diameter_m);

		if (tn_flow_part_check(&pipes[i], NULL) != TARN_OK)
			return TARN_NAN;
		sum += tn_flow_run_loss(&run, flow_m3s);
	}
	return sum;
}

static double series_loss(double flow, const void *context)
{
	const struct several *s = context;
	double sum = 0;

	for (size_t i = 0; i < s->count; i++) {
		struct flow_run run = tn_flow_run_make(&s->pipes[i],
						       s->pipes[i].diameter_m);

		sum += tn_flow_run_loss(&run, flow);
	}
	return sum;
}

static double parallel_flow(double headloss, const void *context)
{
	const struct several *s = context;
	double sum = 0;

	for (size_t i = 0; i < s->count; i++) {
		struct flow_run run = tn_flow_run_make(&s->pipes[i],
						       s->pipes[i].diameter_m);

		sum += tn_flow_run_flow(&run, headloss);
	}
	return sum;
}

static enum tarn_status check_several(const struct tarn_pipe *pipes,
				      size_t count, double flow,
				      double headloss, struct tarn_error *err)
{
	const double whole[] = { flow, headloss };

	if (count == 0)
		return tarn_fail(err, TARN_EARG, "pipes", "needs one or more");
	for (size_t i = 0; i < count; i++)
		if (tn_flow_part_check(&pipes[i], err) != TARN_OK)
			return TARN_EARG;
	if (flow < 0 || headloss < 0 || isinf(flow) || isinf(headloss))
		return tarn_fail(err, TARN_EARG, "pipes", "flow and headloss "
				 "must not be negative or infinite");
	return tn_flow_need(whole, 2, 1, "pipes", "flow and headloss", err);
}

static void add_total(const struct tarn_pipe_flow *out, size_t count,
		      struct tarn_pipe_total *total)
{
	total->volume_m3 = 0;
	for (size_t i = 0; i < count; i++)
		total->volume_m3 += out[i].volume_m3;
}

enum tarn_status tarn_pipe_series(const struct tarn_pipe *pipes, size_t count,
				  double flow_m3s, double headloss_m,
				  struct tarn_pipe_flow *out,
				  struct tarn_pipe_total *total,
				  struct tarn_error *err)
{
	const struct several s = { pipes, count };
	double flow = flow_m3s;

	if (check_several(pipes, count, flow_m3s, headloss_m, err) != TARN_OK)
		return TARN_EARG;
	if (isnan(flow))
		flow = headloss_m <= series_loss(FLOW_Q_MIN, &s) ? 0
			: tn_flow_inverse(series_loss, &s, headloss_m,
					  FLOW_Q_MIN, FLOW_Q_MAX);
	if (isnan(flow))
		return tarn_fail(err, TARN_EARG, "pipes.flow", "no flow loses "
				 "%g m of head in them", headloss_m);
	total->flow_m3s = flow;
	total->headloss_m = 0;
	for (size_t i = 0; i < count; i++) {
		struct flow_run run = tn_flow_run_make(&pipes[i],
						       pipes[i].diameter_m);

		tn_flow_run_report(&run, flow, &out[i]);
		total->headloss_m += out[i].headloss_m;
	}
	add_total(out, count, total);
	return TARN_OK;
}

enum tarn_status tarn_pipe_parallel(const struct tarn_pipe *pipes,
				    size_t count, double flow_m3s,
				    double headloss_m,
				    struct tarn_pipe_flow *out,
				    struct tarn_pipe_total *total,
				    struct tarn_error *err)
{
	const struct several s = { pipes, count };
	double headloss = headloss_m;

	if (check_several(pipes, count, flow_m3s, headloss_m, err) != TARN_OK)
		return TARN_EARG;
	for (size_t i = 0; i < count; i++)
		if (!(pipes[i].length_m > 0 || pipes[i].minor_k > 0))
			return tarn_fail(err, TARN_EARG, "pipes", "number %zu "
					 "has neither length nor minor_k: it "
					 "would take all the flow", i + 1);
	if (isnan(headloss))
		headloss = flow_m3s == 0 ? 0
			: tn_flow_inverse(parallel_flow, &s, flow_m3s, 1e-12,
					  1e5);
	if (isnan(headloss))
		return tarn_fail(err, TARN_EARG, "pipes.headloss", "none up to "
				 "100 km passes %g m3/s", flow_m3s);
	total->headloss_m = headloss;
	total->flow_m3s = 0;
	for (size_t i = 0; i < count; i++) {
		struct flow_run run = tn_flow_run_make(&pipes[i],
						       pipes[i].diameter_m);

		tn_flow_run_report(&run, tn_flow_run_flow(&run, headloss),
				   &out[i]);
		total->flow_m3s += out[i].flow_m3s;
	}
	add_total(out, count, total);
	return TARN_OK;
}

double tarn_expansion_k(double small_m, double large_m)
{
	double ratio = small_m / large_m;

	if (!(small_m > 0 && small_m <= large_m))
		return TARN_NAN;
	return (1 - ratio * ratio) * (1 - ratio * ratio);
}

double tarn_contraction_k(double small_m, double large_m)
{
	double ratio = small_m / large_m;

	if (!(small_m > 0 && small_m <= large_m))
		return TARN_NAN;
	return 0.5 * (1 - ratio * ratio);
}

/* SPDX-License-Identifier: MIT */
#ifndef TARN_WORKS_PLUMBING_H
#define TARN_WORKS_PLUMBING_H

#include "tarn/works.h"

/* The pump against the pipes: what part of tarn_works_solve it is. */

/* Where a run ends, by enum tarn_run_to. */
extern const char *const tn_works_run_names[];

/* A pump that is described by its curve, or by its greatest head. */
int tn_works_has_curve(const struct tarn_works *w, const struct tarn_pond *p);

/* Solves the network at the running level and at the intake.  Errors:
 * TARN_EARG for a flow beyond the curve, or a branch that stays dry. */
enum tarn_status tn_works_pump(const struct tarn_works *w,
			       const struct tarn_pond *p,
			       struct tarn_works_flow *out,
			       struct tarn_error *err);

/* The pump's flow: as given, the runs then as they are at that flow, or the
 * curve's. */
void tn_works_take_flow(const struct tarn_works *w, const struct tarn_pond *p,
			struct tarn_works_flow *out);

/* Flow by where it goes.  A flow that is given is split as the network splits
 * its own, or, without one, over the ends described: all to the bed if there
 * is one. */
void tn_works_share_out(const struct tarn_works *w, const struct tarn_pond *p,
			struct tarn_works_flow *out);

/*
 * tarn_works_solve without its first half: 'out' has the pump's flow already,
 * by a call with the same pump, pipes and levels.  Where it goes, falls, stream
 * and what is in transit follow anew.
 */
enum tarn_status tn_works_again(const struct tarn_works *w,
				const struct tarn_pond *p,
				struct tarn_works_flow *out,
				struct tarn_error *err);

#endif

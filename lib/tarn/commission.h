/* SPDX-License-Identifier: MIT */
#ifndef TARN_COMMISSION_H
#define TARN_COMMISSION_H

/*
 * commission: what was measured when a pond was started against its design.
 * Part of the wing works.
 */

#include "tarn/works.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What is measured, with the share off its design within which it agrees.
 * The shares are our own: a pail and a watch, labels and formulas for
 * irregular ground are good to a tenth; a rise of some millimetres, read on a
 * ruler while the water moves, to a quarter. */
enum tarn_measured_kind {
	TARN_MEASURED_FLOW,	/* by a pail [m3/s]           0.10 */
	TARN_MEASURED_RISE,	/* of the level at a stop [m] 0.25 */
	TARN_MEASURED_DROP,	/* of the level at a start [m] 0.25 */
	TARN_MEASURED_FILL,	/* by the meter [m3]          0.10 */
	TARN_MEASURED_POWER,	/* at the plug [W]            0.10 */
	TARN_MEASURED_KINDS
};

/* A reading of a level tells no less than this: 1/16 inch. */
#define TARN_MEASURED_RULER_M (0.0254 / 16)

enum tarn_measured_word {
	TARN_MEASURED_NO_DESIGN,	/* nothing to compare with */
	TARN_MEASURED_AGREES, TARN_MEASURED_LOW, TARN_MEASURED_HIGH
};

struct tarn_measured {
	int word;		/* enum tarn_measured_word */
	double off;		/* measured / design - 1; NaN: no design, or a
				   design of 0 */
	double room;		/* share off within which it agrees; NaN as
				   above */
	int verdict;		/* enum tarn_finding_verdict: off forbids, no
				   design is a doubt */
};

/*
 * Compares.
 *
 *   design, measured   in the kind's unit, >= 0; design NaN: none
 *
 * Levels that differ by TARN_MEASURED_RULER_M or less agree, whatever the
 * share.  A design of 0 (nothing comes back when the pump stops) is a design:
 * what is more than the ruler's error is HIGH.  A kind that there is not has
 * no design.  No errors.
 */
TARN_API struct tarn_measured tarn_measured(enum tarn_measured_kind kind,
					    double design, double measured);
TARN_API extern const struct tarn_fields tarn_measured_fields;

#ifdef __cplusplus
}
#endif
#endif

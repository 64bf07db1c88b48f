/* SPDX-License-Identifier: MIT */
#ifndef TARN_FLOW_WEIR_H
#define TARN_FLOW_WEIR_H

/* Between weir.c (what is asked) and weir_formulas.c (what is published). */

#include "tarn/flow.h"

#define FLOW_BRINK 0.715	/* brink over critical depth, Rouse (1936) */
#define FLOW_SHARP_LIP 0.85	/* surface over a sharp crest, share of head:
				   profile of the free nappe (Creager;
				   (0.831 + 0.126) / 1.126), from memory */

/* The formula that stands for TARN_WEIR_DEFAULT, or the one asked for. */
int tn_flow_weir_formula(const struct tarn_weir *w);

/* Flow at a width and head, with approach and submergence; NaN where the
 * formula has none. */
double tn_flow_weir_flow(const struct tarn_weir *w, double width, double head);

/* What is outside the tested range of the formula, or NULL. */
const char *tn_flow_weir_note(const struct tarn_weir *w, double width,
			      double head);

#endif

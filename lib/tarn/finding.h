/* SPDX-License-Identifier: MIT */
#ifndef TARN_FINDING_H
#define TARN_FINDING_H

/*
 * finding: what a check found, as data.  Each wing that judges something fills
 * such findings; programs put them into words, and take the worst of a list
 * for their own verdict.
 */

#include "tarn/base.h"

#ifdef __cplusplus
extern "C" {
#endif

enum tarn_finding_verdict {
	TARN_VERDICT_HOLDS,
	TARN_VERDICT_DOUBT,	/* outside its limit, but nothing fails by
				   that; or what is judged is a guess */
	TARN_VERDICT_FORBIDS	/* does not do as it is */
};

/* "holds", "doubt", "forbids", by the enum; then NULL. */
TARN_API extern const char *const tarn_verdict_names[];

/* One check that could be made. */
struct tarn_finding {
	int id;			/* of the check, in the list of its wing: such
				   as enum tarn_bed_check_id */
	const char *code;	/* the same as a word: "lip"; never freed */
	char path[64];		/* field of the description that it is about,
				   "bed.drop"; "": none alone */
	double value;		/* that was found, in 'unit' */
	double lo, hi;		/* accepted; NaN: no such limit */
	double margin;		/* so many times it may grow (or shrink) before
				   it meets its limit; under 1: past it;
				   infinite: never, or it cannot be told so */
	int verdict;		/* enum tarn_finding_verdict */
	int guess;		/* 1: the value rests on a guess, so that the
				   verdict is never better than a doubt */
	const char *unit;
	const char *source;	/* of the limit: a publication, a practice, or
				   the field of the description */
	int evidence;		/* enum tarn_evidence, of the limit */
};
TARN_API extern const struct tarn_fields tarn_finding_fields;

#define TARN_FINDINGS_MAX 64

/* What was found, in the order in which it was looked at. */
struct tarn_findings {
	int count;
	struct tarn_finding finding[TARN_FINDINGS_MAX];
	int left_out;		/* for want of room; none is worse than the
				   worst of the list */
};

/* Adds one; where the list is full it takes the place of the mildest, or is
 * left out.  'margin' is found from value and limits. */
TARN_API void tarn_findings_add(struct tarn_findings *list,
				const struct tarn_finding *finding);

/* Worst verdict of a list (enum tarn_finding_verdict); of an empty one
 * TARN_VERDICT_HOLDS. */
TARN_API int tarn_findings_worst(const struct tarn_findings *list);

#ifdef __cplusplus
}
#endif
#endif

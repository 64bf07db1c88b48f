/* SPDX-License-Identifier: MIT */
#include "tarn/base.h"

const char *const tarn_evidence_texts[] = {
	[TARN_EVIDENCE_SEEN] = "published",
	[TARN_EVIDENCE_INPUTS] = "our sum from published inputs",
	[TARN_EVIDENCE_SECOND_HAND] = "second-hand",
	[TARN_EVIDENCE_MEMORY] = "from memory",
	[TARN_EVIDENCE_PRACTICE] = "common practice, no source",
	[TARN_EVIDENCE_OURS] = "our own",
	NULL
};

const char *tarn_evidence_text(enum tarn_evidence e)
{
	return (unsigned)e <= TARN_EVIDENCE_OURS ? tarn_evidence_texts[e]
						 : "unknown";
}

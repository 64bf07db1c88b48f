/* SPDX-License-Identifier: MIT */
#include "tarn/base.h"

const char *tarn_evidence_text(enum tarn_evidence e)
{
	switch (e) {
	case TARN_EVIDENCE_SEEN: return "published";
	case TARN_EVIDENCE_INPUTS: return "our sum from published inputs";
	case TARN_EVIDENCE_SECOND_HAND: return "second-hand";
	case TARN_EVIDENCE_MEMORY: return "from memory";
	case TARN_EVIDENCE_PRACTICE: return "common practice, no source";
	case TARN_EVIDENCE_OURS: return "our own";
	}
	return "unknown";
}

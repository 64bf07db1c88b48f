# SPDX-License-Identifier: MIT
# What the documents show is what the program prints; what they name exists.

.PHONY: guides documents

DOCUMENTS = $(wildcard *.md docs/*.md docs/methods/*.md weather-samples/*.md tests/bad/*.md)

# Writes each output that a document shows anew: after a report changes.
guides: all
	$B/tarn docs/write-outputs.lua $B write $(DOCUMENTS)

# Fails where one differs, and where a link, a make target or an option is dead.
documents: all
	@$B/tarn docs/write-outputs.lua $B compare $(DOCUMENTS)
	@$B/tarn tests/tools/documents.lua $B $(DOCUMENTS)
	@$B/tarn docs/write-validation.lua | diff docs/validation.md - || \
		{ echo 'docs/validation.md is out of date: make validation'; \
		exit 1; }

# ---- published values ------------------------------------------------------------
# The suite notes what it compares with printed values (tests/published.h):
# docs/checks.md and docs/checks.csv are made of that.
.PHONY: checks checks-same
checks: suite
	$B/tarn docs/write-checks.lua $B/checks.notes docs

# Part of `make test`; a suite that ran in part notes only a part.
checks-same: suite
	@$(if $(TESTFLAGS),:,mkdir -p $B/checks && \
		$B/tarn docs/write-checks.lua $B/checks.notes $B/checks && \
		for f in md csv; do diff docs/checks.$$f $B/checks/checks.$$f || \
		{ echo 'docs/checks.md is out of date: make checks'; exit 1; }; done)

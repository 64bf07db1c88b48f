# SPDX-License-Identifier: MIT
# What the documents show is what the program prints; what they name exists.
# This folder has what is generated and what generates it; docs/ is written by hand.

.PHONY: guides documents

DOCUMENTS = $(wildcard *.md docs/*.md docs/build/*.md docs/methods/*.md weather-samples/*.md tests/bad/*.md)

# Writes each output that a document shows anew: after a report changes.
guides: all
	$B/tarn docs/build/write-outputs.lua $B write $(DOCUMENTS)

# Fails where one differs, and where a link, a make target or an option is dead.
documents: all
	@$B/tarn docs/build/write-outputs.lua $B compare $(DOCUMENTS)
	@$B/tarn tests/tools/documents.lua $B $(DOCUMENTS)
	@$B/tarn docs/build/write-validation.lua | diff docs/build/validation.md - || \
		{ echo 'docs/build/validation.md is out of date: make validation'; \
		exit 1; }

# ---- the description of a pond ------------------------------------------------------
# Its fields and its JSON Schema, from the rows that check it; the suite fails if
# one is out of date.
.PHONY: fields
fields: all
	$B/tarn docs/build/write-pond-fields.lua > $B/pond-fields.md
	$B/tarn docs/build/write-pond-schema.lua > $B/pond.schema.json
	mv $B/pond-fields.md $B/pond.schema.json docs/build

# ---- published values ------------------------------------------------------------
# The suite notes what it compares with printed values (tests/published.h):
# docs/build/checks.md and docs/build/checks.csv are made of that.
.PHONY: checks checks-same
checks: suite
	$B/tarn docs/build/write-checks.lua $B/checks.notes docs/build

# Part of `make test`; a suite that ran in part notes only a part.
checks-same: suite
	@$(if $(TESTFLAGS),:,mkdir -p $B/checks && \
		$B/tarn docs/build/write-checks.lua $B/checks.notes $B/checks && \
		for f in md csv; do diff docs/build/checks.$$f $B/checks/checks.$$f || \
		{ echo 'docs/build/checks.md is out of date: make checks'; exit 1; }; done)

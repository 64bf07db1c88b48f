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

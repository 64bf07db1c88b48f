# SPDX-License-Identifier: MIT
# What the build needs: the check, and the install where the system's package
# manager is Debian's.  Elsewhere the packages are named.

SUDO = $$([ "$$(id -u)" = 0 ] || echo sudo)

# One word for each thing that is missing; empty when all is there.
define MISSING
missing=; \
for tool in gcc ar pkg-config lua5.4; do \
	command -v $$tool > /dev/null 2>&1 || missing="$$missing $$tool"; \
done; \
pkg-config --exists lua5.4 2> /dev/null || missing="$$missing lua5.4-headers"; \
pkg-config --exists criterion 2> /dev/null || missing="$$missing criterion"; \
printf '#include <csv.h>\nint main(void) { return 0; }\n' | \
	gcc -x c - -lcsv -o /dev/null 2> /dev/null || missing="$$missing libcsv"
endef

# $(call INSTALL,packages)
define INSTALL
if command -v apt-get > /dev/null 2>&1; then \
	echo "Installing with apt-get: $(1)"; \
	$(SUDO) apt-get update -q && \
	DEBIAN_FRONTEND=noninteractive $(SUDO) apt-get install -y -q \
		--no-install-recommends $(1) || exit 1; \
else \
	echo "Please install what Debian calls: $(1)"; \
	exit 1; \
fi
endef

deps:
	@$(MISSING); \
	if [ -n "$$missing" ]; then \
		echo "Missing:$$missing"; \
		$(call INSTALL,$(PACKAGES)); \
	else \
		echo "Nothing is missing."; \
	fi
	@mkdir -p $B && touch $(READY)

$(READY):
	@$(MAKE) --no-print-directory deps

# $(call NEED,package): a tool of the same name that only some targets use
define NEED
command -v $(1) > /dev/null 2>&1 || { $(call INSTALL,$(1)); }
endef

# SPDX-License-Identifier: MIT
# What the build needs.  Only `make demo`, `make test` and `make deps` install
# it, and tools of the other targets are installed by the target that is asked
# for; `make` and `make install` say what is missing and stop.

INSTALLS = $(filter demo test deps,$(MAKECMDGOALS))
SUDO     = $$([ "$$(id -u)" = 0 ] || echo sudo)
MISSING  = CC='$(CC)' sh .ci/missing.sh

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

# $(call REFUSE,packages)
define REFUSE
echo "Nothing was built. Missing, by Debian's names: $(1)"; \
echo "Install it with:"; \
echo "    $$([ "$$(id -u)" = 0 ] || echo 'sudo ')apt-get install $(1)"; \
echo "or let 'make deps' do that; then give the same command again."; \
exit 1
endef

# $(call PROVIDE,build|tests): installs what is missing, or refuses
define PROVIDE
missing=$$($(MISSING) $(1)); \
if [ -n "$$missing" ]; then \
	$(if $(INSTALLS),$(call INSTALL,$$missing),$(call REFUSE,$$missing)); \
	missing=$$($(MISSING) $(1)); \
	[ -z "$$missing" ] || \
		{ echo "Still missing after the install: $$missing"; exit 1; }; \
fi
endef

$(READY):
	@$(call PROVIDE,build)
	@mkdir -p $B && touch $@

# one after the other: two installs at a time would lock each other out
$(READY_TESTS): | $(READY)
	@$(call PROVIDE,tests)
	@touch $@

# looks again, whatever an earlier build found
deps:
	@$(call PROVIDE,tests)
	@mkdir -p $B && touch $(READY) $(READY_TESTS)
	@echo 'All that build and tests need is installed.'

# $(call NEED,package): a tool of the same name that only some targets use
define NEED
command -v $(1) > /dev/null 2>&1 || { $(call INSTALL,$(1)); }
endef

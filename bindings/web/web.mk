# SPDX-License-Identifier: MIT
# The page: the library compiled to WebAssembly, and one HTML file around it.
# What reports take in where figures shall be zoomed.
#     make web            build/web/tarn.html
#     make report-assets  build/report-assets.js
#     make web-test       page and reports in a real browser, headless

WEB       = $B/web
WEB_CC    = clang-14
WEB_PACKAGES = clang-14 lld-14 wasi-libc libclang-rt-14-dev-wasm32
# Wings that run without threads or files of their own.
WEB_WINGS = base weather flow bed evaporation pond leak works
WEB_SRC   = $(foreach wing,$(WEB_WINGS),$(wildcard lib/tarn/$(wing)/*.c)) \
            $(wildcard bindings/web/*.c)
WEB_OBJ   = $(WEB_SRC:%.c=$(WEB)/%.o)
WEB_FLAGS = --target=wasm32-wasi -mexec-model=reactor
WEB_PAGE  = $(wildcard bindings/web/page/* bindings/web/page/*/*)

.PHONY: web web-test report-assets

web: $(WEB)/tarn.html

# Pinned packages from npm.
$(WEB)/npm/ready: bindings/web/package-lock.json
	@command -v node > /dev/null && command -v npm > /dev/null || { \
		echo 'Please install Node.js 20 or later, with npm'; exit 1; }
	@mkdir -p $(WEB)/npm
	@cp bindings/web/package.json bindings/web/package-lock.json $(WEB)/npm
	$(SAY) npm ci
	$(Q)cd $(WEB)/npm && npm ci --silent --no-audit --no-fund
	@touch $@

# What is missing is installed; elsewhere than on Debian it is named.
$(WEB)/ready: $(WEB)/npm/ready
	@command -v $(WEB_CC) > /dev/null && command -v wasm-ld-14 > /dev/null \
		&& [ -e /usr/include/wasm32-wasi/stdlib.h ] && \
		[ -e /usr/lib/llvm-14/lib/clang/14.0.6/lib/wasi/libclang_rt.builtins-wasm32.a ] \
		|| { $(call INSTALL,$(WEB_PACKAGES)); }
	@touch $@

$(WEB)/%.o: %.c | $(WEB)/ready
	@mkdir -p $(@D)
	$(SAY) compile $< for the web
	$(Q)$(WEB_CC) --target=wasm32-wasi $(STD) $(WARN) $(FLOAT) $(CPP) \
		-Ibindings/web -O2 -MMD -MP -c $< -o $@

# No imports: the module can reach nothing outside itself.  The long-double
# forms of the C library's conversions round as the native build's do.
$(WEB)/tarn.wasm: $(WEB_OBJ)
	$(SAY) link $@
	$(Q)$(WEB_CC) $(WEB_FLAGS) -o $@ $(WEB_OBJ) \
		-lc-printscan-long-double -lm -Wl,--strip-all

# The rows that describe a pond, as the runner knows them.
$(WEB)/fields.json: bindings/web/fields.lua $B/tarn
	@mkdir -p $(@D)
	$(Q)$B/tarn $< > $@

$(WEB)/tarn.html: $(WEB)/tarn.wasm $(WEB)/fields.json $(WEB_PAGE) \
		bindings/web/build.mjs bindings/web/notices.txt $(WEB)/ready
	$(SAY) write $@
	$(Q)node bindings/web/build.mjs $(WEB)

report-assets: $B/report-assets.js

$B/report-assets.js: $(wildcard bindings/web/report/*) $(WEB)/npm/ready
	$(SAY) write $@
	$(Q)node bindings/web/report/build.mjs $(WEB)/npm $@

web-test: web report-assets all
	@command -v chromium > /dev/null || { $(call INSTALL,chromium); }
	$(CC) $(STD) -O2 -o $(WEB)/csv-same tests/web/csv_same.c -lcsv
	$(WEB)/csv-same
	node tests/web/run.mjs $B
	node tests/web/reports.mjs $B

-include $(WEB_OBJ:.o=.d)

# SPDX-License-Identifier: MIT
# The page: the program compiled to WebAssembly, and one HTML file around it.
# What reports take in where figures shall be zoomed.
#     make web            build/web/tarn.html
#     make report-assets  build/report-assets.js
#     make web-test       page and reports in a real browser, headless

WEB       = $B/web
WEB_CC    = clang-14
WEB_PACKAGES = clang-14 lld-14 wasi-libc libclang-rt-14-dev-wasm32 dpkg-dev
WEB_LUA   = $(WEB)/source/lua
WEB_CSV   = $(WEB)/source/csv
WEB_OBJ   = $(LIB_SRC:%.c=$(WEB)/%.o) $(BIND_SRC:%.c=$(WEB)/%.o) \
            $(WEB)/bindings/lua/runner.o $(WEB)/bindings/web/page.o
LUA_PARTS = lapi lauxlib lbaselib lcode lcorolib lctype ldblib ldebug ldo \
            ldump lfunc lgc linit liolib llex lmathlib lmem loadlib lobject \
            lopcodes loslib lparser lstate lstring lstrlib ltable ltablib ltm \
            lundump lutf8lib lvm lzio
WEB_THEIRS = $(LUA_PARTS:%=$(WEB)/theirs/%.o) $(WEB)/theirs/libcsv.o
WEB_FLAGS = --target=wasm32-wasi -msimd128 $(FLOAT) $(CPP) \
            -D_WASI_EMULATED_PROCESS_CLOCKS -Ibindings/web/standin -Ibindings/lua -isystem $(WEB_LUA)/src -isystem $(WEB_CSV)
# What a slider and a study wait for; all else is compiled small.
WEB_QUICK = weather/% bed/% flow/% pond/% evaporation/% study/%
WEB_LINK  = --target=wasm32-wasi -mexec-model=reactor -Wl,--strip-all \
            -Wl,--export-table -Wl,--export=__stack_pointer -Wl,--export=malloc \
            -Wl,--export=free -Wl,-z,stack-size=1048576
WEB_PAGE  = $(wildcard bindings/web/*.js bindings/web/*.lua bindings/web/page/* \
            bindings/web/report/zoom.*)
WEB_SCRIPTS = $(wildcard scripts/*.lua scripts/*/*.lua)

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
$(WEB)/tools:
	@mkdir -p $(WEB)
	@command -v $(WEB_CC) > /dev/null && command -v wasm-ld-14 > /dev/null \
		&& command -v dpkg-source > /dev/null \
		&& [ -e /usr/include/wasm32-wasi/stdlib.h ] && \
		[ -e /usr/lib/llvm-14/lib/clang/14.0.6/lib/wasi/libclang_rt.builtins-wasm32.a ] \
		|| { $(call INSTALL,$(WEB_PACKAGES)); }
	@touch $@

# Lua and libcsv as Debian builds them, from its source packages.
$(WEB)/source/ready: bindings/web/get-sources.sh | $(WEB)/tools
	$(SAY) get the sources of Lua and libcsv
	$(Q)sh bindings/web/get-sources.sh $(WEB)/source
	@touch $@

$(WEB)/%.o: %.c | $(WEB)/source/ready
	@mkdir -p $(@D)
	$(SAY) compile $< for the web
	$(Q)$(WEB_CC) $(STD) $(WARN) -Wno-shorten-64-to-32 \
		-Wno-double-promotion \
		$(WEB_FLAGS) $(if $(HOT),-O2 $(HOT),$(if \
		$(filter $(WEB_QUICK),$(<:lib/tarn/%=%)),-O2,-Os)) -MMD -MP -c $< -o $@

$(WEB)/lib/tarn/study/lanes.o $(WEB)/lib/tarn/study/lanes_fold.o: \
  HOT = -O3 -fno-trapping-math -fno-signed-zeros -ffinite-math-only

$(WEB)/bindings/lua/runner.o: HOT = -Dmain=tarn_main -Wno-missing-prototypes

$(WEB)/theirs/%.o: bindings/web/standin/lua_try.h \
		| $(WEB)/source/ready
	@mkdir -p $(@D)
	$(SAY) compile $* for the web
	$(Q)$(WEB_CC) -std=gnu99 -O2 $(WEB_FLAGS) -include lua_try.h \
		-DL_tmpnam=20 -w -c -o $@ \
		$$(ls $(WEB_LUA)/src/$*.c $(WEB_CSV)/$*.c 2> /dev/null)

# The long-double forms of the C library's conversions round as the native
# build's do.
$(WEB)/tarn.wasm: $(WEB_OBJ) $(WEB_THEIRS)
	$(SAY) link $@
	$(Q)$(WEB_CC) $(WEB_LINK) -Wl,--export=tarn_main -o $@ $^ \
		-lc-printscan-long-double -lwasi-emulated-process-clocks -lm

$(WEB)/tarn.html: $(WEB)/tarn.wasm $(WEB_PAGE) $(WEB_SCRIPTS) \
		bindings/web/build.mjs bindings/web/pack.mjs bindings/web/notices.txt $(WEB)/npm/ready
	$(SAY) write $@
	$(Q)node bindings/web/build.mjs $(WEB)

report-assets: $B/report-assets.js

$B/report-assets.js: $(wildcard bindings/web/report/*) $(WEB)/npm/ready
	$(SAY) write $@
	$(Q)node bindings/web/report/build.mjs $(WEB)/npm $@

web-test: web report-assets all
	@command -v chromium > /dev/null || { $(call INSTALL,chromium); }
	node tests/web/packed.mjs
	node tests/web/same.mjs $B
	node tests/web/run.mjs $B
	node tests/web/reports.mjs $B

-include $(WEB_OBJ:.o=.d)

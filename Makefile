# SPDX-License-Identifier: MIT
# Tarn: make demo, make test, make help.

# ---- settings -------------------------------------------------------------
B        = build
CC       = gcc
CFLAGS   = -O2 -g
WERROR   =
PREFIX   = /usr/local
DESTDIR  =

# Nothing below here needs changing to build.
VERSION  = 0.1.0
# Until 1.0 every minor version is a library of its own: structs may grow.
SONAME   = libtarn.so.$(basename $(VERSION))
STD      = -std=c11
WARN     = -Wall -Wextra -Wconversion -Wshadow -Wdouble-promotion \
           -Wstrict-prototypes -Wmissing-prototypes $(WERROR)
# -ffp-contract=off: the same bits on every processor.  Never -ffast-math:
# it deletes the NaN convention.
FLOAT    = -ffp-contract=off -fno-math-errno
CPP      = -D_POSIX_C_SOURCE=200809L -Ilib
# A fault that writes beyond its memory ends the program instead of going on.
# Sanitizers look themselves, and what is not optimised cannot be looked after.
HARDEN   = $(if $(filter -O1 -O2 -O3,$(CFLAGS)),$(if $(findstring -fsanitize,$(CFLAGS)),, \
           -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2 -fstack-protector-strong \
           -fstack-clash-protection $(HARDEN_CPU)))
HARDEN_CPU := $(if $(filter x86_64,$(shell uname -m)),-fcf-protection)
HARDEN_LD = -Wl,-z,relro,-z,now,-z,noexecstack
COMPILE  = $(CC) $(STD) $(WARN) $(FLOAT) $(CPP) $(CFLAGS) $(HARDEN) $(HOT) -MMD -MP
# V=1 shows the commands.
Q        = $(if $(V),,@)
SAY      = @$(if $(V),:,echo) '  '
LUA_CPP  = $$(pkg-config --cflags lua5.4)
LUA_LIB  = $$(pkg-config --libs lua5.4)

LIB_SRC  = $(wildcard lib/tarn/*/*.c)
BIND_SRC = $(filter-out bindings/lua/runner.c,$(wildcard bindings/lua/*.c))
TEST_SRC = $(wildcard tests/*.c)
LIB_OBJ  = $(LIB_SRC:%.c=$B/%.o)
BIND_OBJ = $(BIND_SRC:%.c=$B/%.o)
TEST_OBJ = $(TEST_SRC:%.c=$B/%.o)
RUNNER_OBJ = $B/bindings/lua/runner.o
# There once what the build, what the tests need was found.
READY    = $B/ready
READY_TESTS = $B/ready-tests

.PHONY: validation leak-coverage range-coverage all deps test check bench demo install uninstall clean help \
        exports coverage suite tsan FORCE
.DELETE_ON_ERROR:

all: $B/libtarn.a $B/libtarn.so $B/tarn.so $B/tarn $B/tarn.pc

# ---- what must be installed -----------------------------------------------
include .ci/deps.mk
include .ci/trust.mk

# ---- library ----------------------------------------------------------------
$B/lib/%.o: lib/%.c | $(READY)
	@mkdir -p $(@D)
	$(SAY) compile $<
	$(Q)$(COMPILE) -fPIC -fvisibility=hidden -c $< -o $@

# The loops of the study are worth the compiler's best.  No NaN and no
# infinity comes into them (checked before), which makes a minimum of two
# numbers one instruction; sums and products stay as they are written.
$B/lib/tarn/study/lanes.o $B/lib/tarn/study/lanes_fold.o: \
  HOT = -O3 -fno-trapping-math -fno-signed-zeros -ffinite-math-only

# Changes when a source comes or goes, so that what is linked follows.
$B/sources: FORCE | $(READY)
	@echo $(LIB_SRC) $(BIND_SRC) $(TEST_SRC) | cmp -s - $@ || \
		echo $(LIB_SRC) $(BIND_SRC) $(TEST_SRC) > $@

# All objects, for what is linked here; tests look into some wings.
$B/parts.a: $(LIB_OBJ) $B/sources
	$(SAY) archive $@
	$(Q)rm -f $@ && ar rcs $@ $(LIB_OBJ)

# The archive for others: one object, whose hidden names are local to it, so
# that no name of a program can meet one of the library's own.
$B/libtarn.a: $(LIB_OBJ) $B/sources
	$(SAY) archive $@
	$(Q)$(LD) -r -o $B/libtarn.o $(LIB_OBJ)
	$(Q)objcopy --localize-hidden $B/libtarn.o
	$(Q)rm -f $@ && ar rcs $@ $B/libtarn.o

$B/libtarn.so: $(LIB_OBJ) $B/sources
	$(SAY) link $@
	$(Q)$(CC) -shared $(CFLAGS) $(HARDEN_LD) -Wl,-soname,$(SONAME) -o $@ $(LIB_OBJ) -lcsv -lm -pthread

# ---- Lua module and runner --------------------------------------------------
$B/bindings/%.o: bindings/%.c | $(READY)
	@mkdir -p $(@D)
	$(SAY) compile $<
	$(Q)$(COMPILE) $(LUA_CPP) -fPIC -fvisibility=hidden -c $< -o $@

$B/tarn.so: $(BIND_OBJ) $B/parts.a
	$(SAY) link $@
	$(Q)$(CC) -shared $(CFLAGS) $(HARDEN_LD) -o $@ $^ -lcsv -lm -pthread

$B/tarn: $(RUNNER_OBJ) $(BIND_OBJ) $B/parts.a
	$(SAY) link $@
	$(Q)$(CC) $(CFLAGS) $(HARDEN_LD) -pie -o $@ $^ $(LUA_LIB) -lcsv -lm -pthread

# Written anew each time: PREFIX may differ from the build's.
$B/tarn.pc: FORCE | $(READY)
	@printf '%s\n' 'prefix=$(PREFIX)' 'libdir=$${prefix}/lib' \
		'includedir=$${prefix}/include' '' 'Name: tarn' \
		'Description: water ledger and bed sizing of garden ponds' \
		'Version: $(VERSION)' 'Cflags: -I$${includedir}' \
		'Libs: -L$${libdir} -ltarn' 'Libs.private: -lcsv -lm -pthread' > $@

# ---- tests ------------------------------------------------------------------
$B/tests/%.o: tests/%.c | $(READY_TESTS)
	@mkdir -p $(@D)
	$(SAY) compile $<
	$(Q)$(COMPILE) $(LUA_CPP) -c $< -o $@

$B/run-tests: $(TEST_OBJ) $B/parts.a
	$(SAY) link $@
	$(Q)$(CC) $(CFLAGS) -o $@ $^ -lcriterion $(LUA_LIB) -lcsv -lm -pthread

TESTFLAGS =
test: suite exports trust documents checks-same
	@echo 'All tests passed: Tarn is built and works on this computer.'

suite: all $B/run-tests
	@rm -f $B/checks.notes
	TARN_BUILD=$B TARN_CHECKS_FILE=$B/checks.notes $B/run-tests --color=never --timeout 300 $(TESTFLAGS)

# The suite again under sanitizers, then the main job under valgrind.  A leak
# does not fail a Criterion test and its workers swallow valgrind's status, so
# what they log decides.
SAN = $B/asan
check: | $(READY)
	@$(call NEED,valgrind)
	rm -rf $(SAN)-log && mkdir -p $(SAN)-log
	ASAN_OPTIONS=log_path=$(CURDIR)/$(SAN)-log/san TARN_SANITIZED=1 \
		$(MAKE) suite B=$(SAN) CFLAGS='-O1 -g -fno-omit-frame-pointer \
		-fsanitize=address,undefined -fno-sanitize-recover=undefined'
	@if ls $(SAN)-log/san* > /dev/null 2>&1; then \
		cat $(SAN)-log/san*; exit 1; fi
	$(MAKE) all $B/run-tests
	valgrind --quiet --error-exitcode=9 --leak-check=full \
		$B/tarn topup $(DEMO) > /dev/null
	valgrind --quiet --error-exitcode=9 --leak-check=full \
		--trace-children=yes --log-file=$(SAN)-log/valgrind.%p \
		$B/run-tests --color=never --filter 'ledger/*'
	@if [ -n "$$(find $(SAN)-log -name 'valgrind.*' -size +0)" ]; then \
		cat $(SAN)-log/valgrind.*; exit 1; fi

# Threads of a study, and Lua states in threads: programs of their own, since the
# thread sanitizer does not go with Criterion.
$B/states: tests/tsan/states.c $(BIND_OBJ) $B/parts.a
	$(SAY) link $@
	$(Q)$(CC) $(STD) $(CFLAGS) $(LUA_CPP) -o $@ $^ $(LUA_LIB) -lcsv -lm -pthread

tsan: | $(READY)
	$(SAY) compile $B/tsan
	$(Q)$(CC) $(STD) $(FLOAT) $(CPP) -O1 -g -fsanitize=thread -o $B/tsan \
		tests/tsan/study.c $(LIB_SRC) -lcsv -lm -pthread
	$B/tsan
	$(Q)$(CC) $(STD) $(FLOAT) $(CPP) -O1 -g -fsanitize=thread $(LUA_CPP) -o $B/tsan \
		tests/tsan/states.c $(LIB_SRC) $(BIND_SRC) $(LUA_LIB) -lcsv -lm -pthread
	$B/tsan

# Every symbol that leaves the library starts with tarn_, every other that files of it share with tn_.
exports: $B/libtarn.so $B/libtarn.a $B/parts.a
	@nm -D --defined-only $B/libtarn.so | awk 'NF == 3 {print $$3}' > $B/exported
	@! nm -g --defined-only $B/parts.a | awk 'NF == 3 {print $$3}' | \
		grep -vxFf $B/exported | grep -vE '^(tn_|__)'
	@! nm -D --defined-only $< | awk 'NF == 3 {print $$3}' | grep -vE '^(tarn_|__odr_asan)'
	@! nm -g --defined-only $B/libtarn.a | awk 'NF == 3 {print $$3}' | grep -vE '^(tarn_|__odr_asan)'

# ---- the main job on real weather -------------------------------------------
DEMO = weather-samples/courtyard-pond.lua \
       weather-samples/seattle_daily_2012_2015.csv \
       --map weather-samples/seattle-map.lua
demo: all
	$B/tarn topup $(DEMO)
	@echo; echo 'With pictures: add --report FILE.html (to zoom in them: make report-assets); in a browser: make web'
	@echo; echo 'Your own pond, six questions, then its water:'
	@echo '    $B/tarn new my-pond.lua'
	@echo '    $B/tarn topup my-pond.lua YOUR-WEATHER.csv   (none at hand? --climate NAME; $B/tarn weather --climates lists them)'

# ---- speed, as ratios in one run ----------------------------------------------
$B/bench: tests/bench/bench.c $B/parts.a | $(READY)
	$(COMPILE) -o $@ $^ -lcsv -lm -pthread

# The study beside plain C, Lua, and NumPy where it is installed.
$B/bench-study: tests/bench/study.c tests/bench/roots.c $B/parts.a | $(READY)
	$(SAY) compile $@
	$(Q)$(COMPILE) -O3 -o $@ $^ -lcsv -lm -pthread

# A study's rows by what their columns touch.
$B/bench-columns: tests/bench/columns.c $B/parts.a | $(READY)
	$(SAY) compile $@
	$(Q)$(COMPILE) -o $@ $^ -lcsv -lm -pthread

bench: all $B/bench $B/bench-study $B/bench-columns
	$B/bench $B/tarn
	$B/bench-study
	$B/bench-columns

# ---- tables of the documents ----------------------------------------------------
# how often the leak fit's intervals hold the truth: docs/methods/leak.md
$B/leak_coverage: tests/bench/leak_coverage.c tests/leak_trials.h \
                  tests/leak_world.h tests/leak_sky.h $B/parts.a \
                  | $(READY)
	$(COMPILE) -o $@ $< $B/parts.a -lcsv -lm -pthread

# how often a forecast's P10 to P90 hold the truth: docs/methods/forecast.md
range-coverage: $B/run-tests
	TARN_BUILD=$B $B/run-tests --color=never --verbose=1 \
		--filter 'forecast_coverage/*'

leak-coverage: $B/leak_coverage
	$B/leak_coverage

validation: all
	$B/tarn docs/build/write-validation.lua > $B/validation.md
	mv $B/validation.md docs/build/validation.md

# ---- install ------------------------------------------------------------------
ROOT     = $(DESTDIR)$(PREFIX)
LUA_DIR  = $(ROOT)/lib/lua/5.4
INSTALLED = $(ROOT)/bin/tarn $(ROOT)/lib/libtarn.a $(ROOT)/lib/libtarn.so \
            $(ROOT)/lib/$(SONAME) $(ROOT)/lib/pkgconfig/tarn.pc \
            $(ROOT)/include/tarn.h $(LUA_DIR)/tarn.so \
            $(ROOT)/share/man/man1/tarn.1 $(ROOT)/share/man/man1/tarn-*.1 \
            $(ROOT)/share/bash-completion/completions/tarn

install: all manual
	install -d $(ROOT)/bin $(ROOT)/lib/pkgconfig $(ROOT)/include/tarn/formulas \
		$(ROOT)/share/doc/tarn/docs/build $(ROOT)/share/doc/tarn/docs/methods \
		$(ROOT)/share/doc/tarn/docs/pictures \
		$(ROOT)/share/tarn/weather-samples \
		$(LUA_DIR) $(ROOT)/share/tarn/scripts
	install $B/tarn $(ROOT)/bin/tarn
	install -m 644 $B/libtarn.a $(ROOT)/lib/libtarn.a
	install $B/libtarn.so $(ROOT)/lib/$(SONAME)
	ln -sf $(SONAME) $(ROOT)/lib/libtarn.so
	install -m 644 $B/tarn.pc $(ROOT)/lib/pkgconfig/tarn.pc
	install -m 644 lib/tarn.h $(ROOT)/include/tarn.h
	install -m 644 lib/tarn/*.h $(ROOT)/include/tarn
	install -m 644 lib/tarn/formulas/*.h $(ROOT)/include/tarn/formulas
	install $B/tarn.so $(LUA_DIR)/tarn.so
	install -m 644 scripts/*.lua $(ROOT)/share/tarn/scripts
	for part in $(notdir $(patsubst %/,%,$(wildcard scripts/*/))); do \
		install -d $(ROOT)/share/tarn/scripts/$$part && \
		install -m 644 scripts/$$part/*.lua \
			$(ROOT)/share/tarn/scripts/$$part || exit 1; done
	[ ! -e $B/report-assets.js ] || install -m 644 $B/report-assets.js \
		$(ROOT)/share/tarn/scripts
	install -m 644 weather-samples/* $(ROOT)/share/tarn/weather-samples
	install -m 644 README.md DEVELOPERS.md LICENSE $(ROOT)/share/doc/tarn
	install -m 644 docs/*.md docs/example-study.c docs/example-design.c $(ROOT)/share/doc/tarn/docs
	install -m 644 docs/build/*.md docs/build/*.json docs/build/*.csv \
		$(ROOT)/share/doc/tarn/docs/build
	install -m 644 docs/methods/*.md $(ROOT)/share/doc/tarn/docs/methods
	install -m 644 docs/pictures/* $(ROOT)/share/doc/tarn/docs/pictures
	install -d $(ROOT)/share/man/man1 $(ROOT)/share/tarn/annotations \
		$(ROOT)/share/bash-completion/completions
	install -m 644 $B/man/*.1 $(ROOT)/share/man/man1
	install -m 644 $B/tarn.d.lua $(ROOT)/share/tarn/annotations/tarn.lua
	install -m 644 scripts/tarn.bash \
		$(ROOT)/share/bash-completion/completions/tarn
	@[ -n "$(DESTDIR)" ] || ldconfig 2> /dev/null || true

uninstall:
	rm -f $(INSTALLED)
	rm -rf $(ROOT)/include/tarn $(ROOT)/share/tarn $(ROOT)/share/doc/tarn

help:
	@echo 'make demo       install what is missing, build, run on real weather'
	@echo 'make test       install what is missing, build, run the tests'
	@echo 'make deps       install what is missing, no more'
	@echo 'make            library, Lua module and runner, in $B/; installs nothing'
	@echo 'make check      the tests under sanitizers, the main job under valgrind'
	@echo 'make tsan       threads of the study under the thread sanitizer'
	@echo 'make bench      speed of reader, evaporation, ledger, study'
	@echo 'make guides     outputs in the documents anew; make documents compares them'
	@echo 'make fields     fields and JSON Schema of a description, to docs/build/'
	@echo 'make checks     every published value beside ours, to docs/build/checks.md'
	@echo 'make validation models against open measured data, to docs/build/validation.md'
	@echo 'make leak-coverage  how often the leak intervals hold the truth'
	@echo 'make web        the page for a browser, $B/web/tarn.html'
	@echo 'make report-assets  reports whose figures can be zoomed, from then on'
	@echo 'make web-test   page and reports in headless Chromium'
	@echo 'make install    to PREFIX ($(PREFIX)), below DESTDIR; make uninstall'
	@echo 'make coverage   lines and branches of lib/ and bindings/ that tests reach'
	@echo 'make fuzz faults mutants analyze abi deb deb-try: see DEVELOPERS.md'
	@echo 'make clean      remove $B/'
	@echo 'Settings: B=folder CC=gcc|clang CFLAGS=... PREFIX=... WERROR=-Werror'

# ---- the page -------------------------------------------------------------------
include bindings/web/web.mk

# ---- documents ------------------------------------------------------------------
include docs/build/docs.mk

# ---- coverage -------------------------------------------------------------------
coverage: | $(READY_TESTS)
	@$(call NEED,gcovr)
	$(MAKE) suite B=$B/cov HOT= CFLAGS='-O0 -g --coverage -fprofile-update=atomic'
	gcovr -r . --object-directory $B/cov --filter lib/ --filter bindings/ \
		--gcov-ignore-parse-errors --txt $B/cov/lines.txt \
		--print-summary > $B/cov/summary.txt
	@lua5.4 tests/tools/uncovered.lua $B/cov/lines.txt
	@tail -4 $B/cov/summary.txt

FORCE:

clean:
	rm -rf $B

-include $(LIB_OBJ:.o=.d) $(BIND_OBJ:.o=.d) $(TEST_OBJ:.o=.d) \
         $(RUNNER_OBJ:.o=.d) $B/bench.d

# SPDX-License-Identifier: MIT
# What makes Tarn trustworthy beyond its tests: fuzzing, failing allocations
# and files, static analysis, mutants, the exported symbols, the package.

.PHONY: trust independent replay fuzz fuzz-programs fuzz-more fuzz-counts faults headers abi \
        abi-accept hardened mutants analyze same same-compilers manual deb deb-try \
        installed missing structure

# What `make test` does of all this.
trust: replay headers abi hardened structure same installed missing independent \
       $B/faults $B/states
	$B/faults 97
	$B/states

# One whole job, worked out again in Python without a line of Tarn's code, beside
# every figure of it that the commands print.
independent: all | $(READY_TESTS)
	python3 tests/independent/courtyard.py $B/tarn

# ---- fuzzing -------------------------------------------------------------------
FUZZ_SRC = $(filter-out %/replay.c %/file.c,$(wildcard tests/fuzz/*.c))
FUZZ     = $(FUZZ_SRC:tests/fuzz/%.c=%)
FUZZ_OBJ = $(FUZZ_SRC:%.c=$B/%.o) $B/tests/fuzz/replay.o $B/tests/fuzz/file.o
FUZZ_LIB = $B/tests/fuzz/file.o $(BIND_OBJ) $B/parts.a
FUZZ_LINK = -Wl,--wrap=fopen $(LUA_LIB) -lcsv -lm
SEEDS    = $B/seeds
SECONDS  = 60

$(FUZZ:%=$B/replay-%): $B/replay-%: $B/tests/fuzz/%.o $B/tests/fuzz/replay.o \
		$(FUZZ_LIB)
	$(SAY) link $@
	$(Q)$(CC) $(CFLAGS) -o $@ $^ $(FUZZ_LINK)

$(FUZZ:%=$B/fuzz-%): $B/fuzz-%: $B/tests/fuzz/%.o $(FUZZ_LIB)
	$(SAY) link $@
	$(Q)$(CC) $(CFLAGS) -fsanitize=fuzzer -o $@ $^ $(FUZZ_LINK)

# One folder a target: the corpus, and what the tests have of the same kind (a
# weather file behind the options that its .expect names).
$(SEEDS): FORCE | $(READY)
	@rm -rf $@ && mkdir -p $(FUZZ:%=$@/%)
	@cp -r tests/fuzz/corpus/. $@
	@cp tests/bad/ponds/* weather-samples/*.lua $@/pond/
	@cp weather-samples/*study.lua $@/study/
	@for e in tests/good/*.expect tests/bad/*.expect; do \
		f=$${e%.expect}; to=$@/csv/$$(echo $$f | tr / -); \
		{ cat $$e; echo ---; head -c 20000 $$f.csv; } > $$to; \
	done

replay: $(FUZZ:%=$B/replay-%) $(SEEDS)
	@for t in $(FUZZ); do $B/replay-$$t $(SEEDS)/$$t/* || exit 1; done

# make fuzz SECONDS=300 TARGET=csv: a quarter of the time under sanitizers, the
# rest as fast as can be, endless descriptions stopped sooner.  What breaks a
# rule is kept in build/fuzz.
TARGET   = $(FUZZ)
FUZZ_BOX = -DINSTRUCTIONS_MAX=5000 -DMEMORY_BYTES_MAX=300000 -DENTRIES_MAX=5000
FUZZ_LIMITS = -max_len=4096 -detect_leaks=0 -rss_limit_mb=2048 -timeout=20 \
              -print_final_stats=1 -verbosity=0
fuzz: | $(READY)
	@$(call NEED,clang)
	$(MAKE) fuzz-programs B=$B/fuzz/asan CC=clang CFLAGS='-O1 -g \
		-fno-omit-frame-pointer \
		-fsanitize=fuzzer-no-link,address,undefined \
		-fno-sanitize-recover=undefined'
	$(MAKE) fuzz-programs B=$B/fuzz/fast CC=clang \
		CFLAGS='-O2 -g -fsanitize=fuzzer-no-link $(FUZZ_BOX)'
	@for t in $(TARGET); do for kind in asan fast; do \
		mkdir -p $B/fuzz/found-$$t; \
		[ $$kind = asan ] && s=$$(($(SECONDS) / 4)) || \
			s=$$(($(SECONDS) * 3 / 4)); \
		echo "== $$t, $$kind"; \
		ASAN_OPTIONS=quarantine_size_mb=8 \
		$B/fuzz/$$kind/fuzz-$$t $(FUZZ_LIMITS) -max_total_time=$$s \
			-artifact_prefix=$B/fuzz/$$t- $B/fuzz/found-$$t \
			$B/fuzz/asan/seeds/$$t > $B/fuzz/log 2>&1; status=$$?; \
		sed -n "s/^stat::number_of_executed_units: */$$t $$kind /p" \
			$B/fuzz/log | tee -a $B/fuzz/counts; \
		[ $$status = 0 ] || { cat $B/fuzz/log; exit 1; }; \
	done; done
	@$(MAKE) --no-print-directory fuzz-counts

# So many mutations of each input that was found, by programs that the fuzzer's
# own work does not slow.
MORE     = 1000
fuzz-more: | $(READY)
	$(MAKE) $(TARGET:%=$B/fuzz/plain/replay-%) B=$B/fuzz/plain \
		CFLAGS='-O2 $(FUZZ_BOX)'
	@for t in $(TARGET); do \
		find $B/fuzz/found-$$t -type f | xargs -n 2000 \
			$B/fuzz/plain/replay-$$t -$(MORE) > $B/fuzz/log || \
			{ cat $B/fuzz/log; exit 1; }; \
		sed -n "s/.* \([0-9]*\) inputs/$$t plain \1/p" $B/fuzz/log \
			| tee -a $B/fuzz/counts; \
	done
	@$(MAKE) --no-print-directory fuzz-counts

# all inputs since `make clean`
fuzz-counts:
	@awk '{ n[$$1] += $$3; if ($$2 == "asan") a[$$1] += $$3 } \
		END { for (t in n) printf "%-10s %11d inputs, %d of them under " \
		"sanitizers\n", t, n[t], a[t] }' $B/fuzz/counts | sort

fuzz-programs: $(FUZZ:%=$B/fuzz-%) $(SEEDS)

# ---- failing allocations, failing files --------------------------------------------
# The runner, its bindings, the library and Lua in one program whose calls for
# memory and files go through tests/faults/faults.c.
comma    = ,
WRAPPED  = malloc realloc free fopen fread write openat fchmod fsync linkat \
           renameat close
LUA_STATIC = $$(pkg-config --variable=libdir lua5.4)/liblua5.4.a

$B/faults-runner.o: bindings/lua/runner.c | $(READY)
	$(SAY) compile $@
	$(Q)$(COMPILE) $(LUA_CPP) -Dmain=tarn_main -Wno-missing-prototypes \
		-c $< -o $@

$B/faults: $B/tests/faults/faults.o $B/faults-runner.o $(BIND_OBJ) $B/parts.a
	$(SAY) link $@
	$(Q)$(CC) $(CFLAGS) $(WRAPPED:%=-Wl$(comma)--wrap=%) -o $@ $^ \
		$(LUA_STATIC) -lcsv -lm -ldl

# every one; `make test` tries every 97th
faults: $B/faults
	$B/faults

# ---- mutants: do the tests notice a changed formula? ----------------------------------
# make mutants COUNT=100 SEED=2 PART=1/4 WINGS='flow bed': so many changes a wing,
# by the seed; goes on where an earlier run stopped
COUNT    = 20
SEED     = 1
PART     = 1/1
mutants: | $(READY_TESTS)
	CC='$(CC)' nice -n 19 lua5.4 tests/tools/mutants.lua $(COUNT) $(SEED) $(PART) $(WINGS)

# ---- static analysis ------------------------------------------------------------------
# What is switched off, and why, stands in tests/tools/analyze.sh.
analyze: | $(READY)
	@$(call NEED,cppcheck)
	@$(call NEED,clang-tidy)
	@sh tests/tools/analyze.sh

# ---- headers and symbols -----------------------------------------------------------
# Every public function has units, range, errors, source, and a test; every
# header compiles by itself.
headers: | $(READY_TESTS)
	@lua5.4 tests/tools/headers.lua
	@lua5.4 tests/tools/enums.lua
	@for h in lib/tarn.h lib/tarn/*.h lib/tarn/formulas/*.h; do \
		echo "#include \"$${h#lib/}\"" | $(CC) $(STD) $(WARN) $(CPP) \
			-Werror -fsyntax-only -x c - || exit 1; \
	done

# What the library exports, what the headers declare and the list of record are
# one, and every public struct has the size and the offsets of record.  A symbol
# that leaves the list, or a struct that changes, breaks programs: DEVELOPERS.md
# says what follows.  After a wanted change: make abi-accept, which refuses
# another struct under the name of a library that was released.
ABI      = .ci/abi.txt
LAYOUTS  = .ci/abi-layouts.txt
SYMBOLS  = nm -D --defined-only $B/libtarn.so | \
           awk 'NF == 3 && $$3 ~ /^tarn_/ { print $$3 }' | LC_ALL=C sort
abi: $B/libtarn.so $B/layouts.o | $(READY_TESTS)
	@lua5.4 tests/tools/headers.lua list | LC_ALL=C sort > $B/declared
	@$(SYMBOLS) | diff $B/declared - || \
		{ echo 'abi: headers (<) and library (>) disagree'; exit 1; }
	@$(SYMBOLS) | diff $(ABI) - || \
		{ echo 'abi: $(ABI) (<) and library (>) differ:' \
		'make abi-accept if that is meant'; exit 1; }
	@grep -q '"$(VERSION)"' lib/tarn/base.h || \
		{ echo 'abi: the version in base.h is not $(VERSION)'; exit 1; }
	@grep -q '^Package: $(SONAME:libtarn.so.%=libtarn%)$$' .ci/debian/control || \
		{ echo 'abi: .ci/debian has no package for $(SONAME)'; exit 1; }
	@lua5.4 tests/tools/layouts.lua compare $(LAYOUTS) $B/layouts.o $(SONAME)
	@CC='$(CC)' sh tests/tools/layouts.sh $B $(SONAME) $(VERSION)
	@echo "abi: $$(wc -l < $(ABI)) symbols, version $(VERSION), $(SONAME)"

# The headers with all that a debugger knows of their structs.
$B/layouts.o: lib/tarn.h $(wildcard lib/tarn/*.h lib/tarn/formulas/*.h) | $(READY)
	@echo '#include "tarn.h"' | $(CC) $(STD) $(CPP) -g -gdwarf-4 \
		-fno-eliminate-unused-debug-types -c -x c - -o $@

abi-accept: $B/libtarn.so $B/layouts.o
	$(SYMBOLS) > $(ABI)
	@lua5.4 tests/tools/layouts.lua accept $(LAYOUTS) $B/layouts.o $(SONAME) \
		$(VERSION) docs/CHANGELOG.md

# Program, module and library have what the Makefile's HARDEN asks for.
hardened: all
	@HARDENED=$(if $(strip $(HARDEN)),1,0) sh tests/tools/hardened.sh $B

# ---- the order of files -----------------------------------------------------------------
# No circle of files, arrows down only, no sentence in scripts and page alike.
structure: all | $(READY_TESTS)
	@lua5.4 tests/tools/circles.lua $B
	@lua5.4 tests/tools/sentences.lua

# ---- the same bytes everywhere --------------------------------------------------------
same: all
	@sh tests/tools/same.sh $B

# and by clang
same-compilers: all
	@$(call NEED,clang)
	$(MAKE) all CC=clang B=$B/clang
	@sh tests/tools/same.sh $B $B/clang

# ---- what is installed beside the program ---------------------------------------------
# Manual pages from --help, annotations for editors from the module itself.
manual: all
	@mkdir -p $B/man
	$(SAY) write $B/man
	$(Q)TARN_SCRIPTS=scripts $B/tarn docs/build/write-man.lua $B/tarn $B/man
	$(SAY) write $B/tarn.d.lua
	$(Q)$B/tarn docs/build/write-annotations.lua > $B/tarn.d.lua

# Installs below $B/root as a user would, and tries each part from there.
installed: | $(READY_TESTS)
	@sh tests/tools/installed.sh $B

# `make` where something is missing: stops and says so; `make deps` installs.
missing:
	@sh tests/tools/missing.sh $B

# ---- Debian packages ---------------------------------------------------------------------
DEB      = $B/deb/tarn-$(VERSION)
deb: | $(READY)
	@command -v dh > /dev/null || { $(call INSTALL,debhelper build-essential); }
	rm -rf $B/deb && mkdir -p $(DEB)
	cp -r Makefile README.md DEVELOPERS.md LICENSE lib bindings scripts docs .ci \
		weather-samples $(DEB)
	cp -r .ci/debian $(DEB)/debian
	cd $(DEB) && dpkg-buildpackage -b -us -uc > ../log 2>&1 || \
		{ tail -30 ../log; exit 1; }
	@ls $B/deb/*.deb

# and in a clean root: installed, tried, removed
deb-try: deb
	@$(call NEED,debootstrap)
	sh .ci/try-packages.sh $B/deb

-include $B/tests/faults/faults.d $(FUZZ_OBJ:.o=.d)

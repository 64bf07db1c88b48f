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
SONAME   = libtarn.so.0
STD      = -std=c11
WARN     = -Wall -Wextra -Wconversion -Wshadow -Wdouble-promotion \
           -Wstrict-prototypes -Wmissing-prototypes $(WERROR)
# -ffp-contract=off: the same bits on every processor.  Never -ffast-math:
# it deletes the NaN convention.
FLOAT    = -ffp-contract=off -fno-math-errno
CPP      = -D_POSIX_C_SOURCE=200809L -Ilib
COMPILE  = $(CC) $(STD) $(WARN) $(FLOAT) $(CPP) $(CFLAGS) $(HOT) -MMD -MP
LUA_CPP  = $$(pkg-config --cflags lua5.4)
LUA_LIB  = $$(pkg-config --libs lua5.4)

LIB_SRC  = $(wildcard lib/tarn/*/*.c)
BIND_SRC = $(filter-out bindings/lua/runner.c,$(wildcard bindings/lua/*.c))
TEST_SRC = $(wildcard tests/*.c)
LIB_OBJ  = $(LIB_SRC:%.c=$B/%.o)
BIND_OBJ = $(BIND_SRC:%.c=$B/%.o)
TEST_OBJ = $(TEST_SRC:%.c=$B/%.o)
RUNNER_OBJ = $B/bindings/lua/runner.o
READY    = $B/ready

.PHONY: all deps test check bench demo install uninstall clean help exports
.DELETE_ON_ERROR:

all: $B/libtarn.a $B/libtarn.so $B/tarn.so $B/tarn $B/tarn.pc

# ---- what must be installed -----------------------------------------------
PACKAGES = gcc libc6-dev make pkgconf liblua5.4-dev lua5.4 libcsv-dev \
           libcriterion-dev

include .ci/deps.mk

# ---- library ----------------------------------------------------------------
$B/lib/%.o: lib/%.c | $(READY)
	@mkdir -p $(@D)
	$(COMPILE) -fPIC -fvisibility=hidden -c $< -o $@

# The loops of the study are worth the compiler's best.  No NaN and no
# infinity comes into them (checked before), which makes a minimum of two
# numbers one instruction; sums and products stay as they are written.
$B/lib/tarn/study/lanes.o: HOT = -O3 -fno-trapping-math -fno-signed-zeros \
                                 -ffinite-math-only

$B/libtarn.a: $(LIB_OBJ)
	rm -f $@
	ar rcs $@ $^

$B/libtarn.so: $(LIB_OBJ)
	$(CC) -shared $(CFLAGS) -Wl,-soname,$(SONAME) -Wl,--no-undefined -o $@ $^ -lcsv -lm -pthread

# ---- Lua module and runner --------------------------------------------------
$B/bindings/%.o: bindings/%.c | $(READY)
	@mkdir -p $(@D)
	$(COMPILE) $(LUA_CPP) -fPIC -fvisibility=hidden -c $< -o $@

$B/tarn.so: $(BIND_OBJ) $B/libtarn.a
	$(CC) -shared $(CFLAGS) -o $@ $^ -lcsv -lm -pthread

$B/tarn: $(RUNNER_OBJ) $(BIND_OBJ) $B/libtarn.a
	$(CC) $(CFLAGS) -o $@ $^ $(LUA_LIB) -lcsv -lm -pthread

$B/tarn.pc: Makefile | $(READY)
	printf '%s\n' 'prefix=$(PREFIX)' 'libdir=$${prefix}/lib' \
		'includedir=$${prefix}/include' '' 'Name: tarn' \
		'Description: water ledger and bed sizing of garden ponds' \
		'Version: $(VERSION)' 'Cflags: -I$${includedir}' \
		'Libs: -L$${libdir} -ltarn' 'Libs.private: -lcsv -lm -pthread' > $@

# ---- tests ------------------------------------------------------------------
$B/tests/%.o: tests/%.c | $(READY)
	@mkdir -p $(@D)
	$(COMPILE) $(LUA_CPP) -c $< -o $@

$B/run-tests: $(TEST_OBJ) $B/libtarn.a
	$(CC) $(CFLAGS) -o $@ $^ -lcriterion $(LUA_LIB) -lcsv -lm -pthread

TESTFLAGS =
test: all $B/run-tests exports
	$B/run-tests --color=never --timeout 300 $(TESTFLAGS)

# every symbol that leaves the library carries its prefix
exports: $B/libtarn.so
	@! nm -D --defined-only $< | awk 'NF == 3 {print $$3}' | grep -v '^tarn_'

clean:
	rm -rf $B

-include $(LIB_OBJ:.o=.d) $(BIND_OBJ:.o=.d) $(TEST_OBJ:.o=.d) $(RUNNER_OBJ:.o=.d)

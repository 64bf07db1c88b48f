#!/bin/sh
# SPDX-License-Identifier: MIT
# Does `make abi` notice a struct that grew?  Tries it on copies of the headers and
# of the record:  sh tests/tools/layouts.sh BUILD SONAME VERSION
set -eu
build=$1 soname=$2 version=$3
at=$build/layouts-try
layouts() { lua5.4 tests/tools/layouts.lua "$@" > "$at/said" 2>&1; }
fail() { echo "layouts: $*"; cat "$at/said"; exit 1; }

rm -rf "$at" && mkdir -p "$at"
cp -r lib/tarn lib/tarn.h "$at"
sed -i 's/^struct tarn_bay {/&\n\tdouble grown;/' "$at/tarn/works.h"
echo '#include "tarn.h"' | ${CC:-cc} -std=c11 -I"$at" -g -gdwarf-4 \
	-fno-eliminate-unused-debug-types -c -x c - -o "$at/grown.o"
cp .ci/abi-layouts.txt "$at/record"
sed "s/^## $version, not yet released/## $version, 1 May/" docs/CHANGELOG.md > "$at/released.md"

layouts compare "$at/record" "$build/layouts.o" "$soname" || fail "the record is not of these headers"
! layouts compare "$at/record" "$at/grown.o" "$soname" || fail "a struct grew and nothing is said"
grep -q 'struct tarn_bay has .* bytes, in the record' "$at/said" || fail "the struct that grew is not named"
! layouts compare "$at/record" "$build/layouts.o" libtarn.so.9.9 || fail "another name with the old record passes"
! layouts accept "$at/record" "$at/grown.o" "$soname" "$version" "$at/released.md" ||
	fail "a struct grew under a released name and is accepted"
cmp -s .ci/abi-layouts.txt "$at/record" || fail "a refused layout was written"
layouts accept "$at/record" "$at/grown.o" libtarn.so.9.9 9.9.0 "$at/released.md" ||
	fail "a struct that grew under a new name is refused"
layouts compare "$at/record" "$at/grown.o" libtarn.so.9.9 || fail "the new record is not of the grown struct"

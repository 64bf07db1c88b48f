#!/bin/sh
# SPDX-License-Identifier: MIT
# Looks into what was built: does a fault that writes beyond its memory end it?
#     sh tests/tools/hardened.sh build [FILE ...]
# Where the build was not to be hardened (sanitizers, no optimisation) only the
# linker's part is asked for.
set -eu
build=$1
shift
[ $# -gt 0 ] || set -- "$build/tarn" "$build/tarn.so" "$build/libtarn.so"

fail() { echo "hardened: $*"; exit 1; }

need() {	# FILE WHAT PATTERN COMMAND...
	file=$1 what=$2 pattern=$3
	shift 3
	"$@" "$file" | grep -q "$pattern" || fail "$file: no $what"
}

for file; do
	need "$file" "read-only relocations" GNU_RELRO readelf -lW
	need "$file" "binding at the start" 'BIND_NOW\|FLAGS_1.*NOW' readelf -dW
	need "$file" "place of its own choosing" 'Type:.*DYN' readelf -hW
	! readelf -lW "$file" | grep 'GNU_STACK.*RWE' || fail "$file: stack runs"
	! readelf -dW "$file" | grep -q TEXTREL || fail "$file: text is written to"
	! readelf -dW "$file" | grep -q 'R.*PATH' || fail "$file: a path of libraries"
	case $file in
	*.so) ;;
	*) need "$file" "flag of a program that moves" 'FLAGS_1.*PIE' readelf -dW ;;
	esac
	case ${HARDENED:-1} in
	0) continue ;;
	esac
	need "$file" "guard of the stack" __stack_chk_fail readelf -sW --dyn-syms
	need "$file" "checked copies" '__\(snprintf\|memcpy\|strcpy\)_chk' readelf -sW --dyn-syms
done

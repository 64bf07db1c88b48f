#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs into a folder, tries each part from there, removes it again:
#     sh tests/tools/installed.sh build
set -eu
build=$1
root=$(cd "$build" && pwd)/root
prefix=/opt/tarn
at=$root$prefix

fail() { echo "installed: $*"; exit 1; }

rm -rf "$root"
(umask 077 && make -s install B="$build" DESTDIR="$root" PREFIX=$prefix > /dev/null)
[ -z "$(find "$at" ! -perm -a+r)" ] || fail "a file that others cannot read"

# the program, from another folder
version=$(cd / && "$at/bin/tarn" --version)
samples=$at/share/tarn/weather-samples
(cd / && "$at/bin/tarn" topup "$samples/courtyard-pond.lua" \
	"$samples/seattle_daily_2012_2015.csv" --map "$samples/seattle-map.lua") \
	> "$root/out" || fail "the main job does not run"
for script in "$at"/share/tarn/scripts/*.lua; do
	name=$(basename "$script" .lua)
	"$at/bin/tarn" "$name" --help > /dev/null || fail "$name --help"
	[ -f "$at/share/man/man1/tarn-$name.1" ] || fail "no manual page of $name"
done

# what lets figures of reports be zoomed, if it was built
[ ! -e "$build/report-assets.js" ] ||
	cmp -s "$build/report-assets.js" "$at/share/tarn/scripts/report-assets.js" ||
	fail "report-assets.js is not installed"

# a program of another's, by pkg-config, shared and static
cat > "$root/use.c" <<'C'
#include <stdio.h>
#include <string.h>
#include <tarn.h>
int main(void)
{
	printf("tarn %s %.2f\n", tarn_version(), tarn_air_pressure(1800));
	return strcmp(tarn_version(), TARN_VERSION) != 0;
}
C
export PKG_CONFIG_PATH="$at/lib/pkgconfig" PKG_CONFIG_SYSROOT_DIR="$root"
flags() { pkg-config --cflags --libs "$@" tarn; }
if [ -z "${TARN_SANITIZED:-}" ]; then
	${CC:-cc} -o "$root/use" "$root/use.c" $(flags)
	[ "$(LD_LIBRARY_PATH=$at/lib "$root/use")" = "$version 81.76" ] || fail "C, shared"
	${CC:-cc} -o "$root/use" "$root/use.c" $(pkg-config --cflags tarn) \
		"$at/lib/libtarn.a" -lcsv -lm
	[ "$("$root/use")" = "$version 81.76" ] || fail "C, static"
fi
[ "tarn $(pkg-config --modversion tarn)" = "$version" ] || fail "version of tarn.pc"

# the module, the annotations, the completion
if [ -z "${TARN_SANITIZED:-}" ]; then
	env -u LUA_CPATH_5_4 LUA_CPATH="$at/lib/lua/5.4/?.so" lua5.4 -e \
		'assert(require("tarn").air.pressure(1800) > 81)' || fail "Lua"
fi
lua5.4 -e "assert(loadfile '$at/share/tarn/annotations/tarn.lua')" || fail "annotations"
if command -v bash > /dev/null; then
	bash -c ". '$at/share/bash-completion/completions/tarn'
		COMP_WORDS=('$at/bin/tarn' topup --me) COMP_CWORD=2
		_tarn '$at/bin/tarn'; [ \"\${COMPREPLY[*]}\" = --method ]" || fail "completion"
fi

make -s uninstall B="$build" DESTDIR="$root" PREFIX=$prefix > /dev/null
left=$(find "$at" ! -type d)
[ -z "$left" ] || fail "left behind: $left"
rm -rf "$root"
echo "installed: program, pages, C (shared, static), Lua, completion tried; removed"

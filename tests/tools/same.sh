#!/bin/sh
# SPDX-License-Identifier: MIT
# The same bytes wherever a report is made: locales, time zones, folders, masks;
# and from builds of two compilers, where a second one is given.
#     sh tests/tools/same.sh build [build-of-another-compiler]
set -eu
first=$1
second=${2:-}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
home=$PWD

# a locale whose decimal point is a comma, made here
mkdir "$work/locale"
comma="LOCPATH=$work/locale LC_ALL=de_DE.UTF-8"
localedef -i de_DE -f UTF-8 "$work/locale/de_DE.UTF-8" 2> /dev/null || true
if [ "$(env $comma locale decimal_point 2> /dev/null)" != , ]; then
	comma=
	echo "same: no decimal comma tried: it needs localedef and de_DE (Debian's package locales)"
fi

# Runs every report into a folder: program, folder, the rest as env takes it.
reports() {
	tarn=$1 to=$2
	shift 2
	mkdir -p "$to"
	s=weather-samples
	for job in "topup $s/courtyard-pond.lua $s/seattle_daily_2012_2015.csv --map $s/seattle-map.lua --csv $to/topup.csv --report $to/topup.html" \
		"weather $s/seattle_daily_2012_2015.csv --map $s/seattle-map.lua" \
		"convert $s/courtyard-pond.lua --to $to/pond.json" \
		"bed $s/courtyard-pond.lua --report $to/bed.html" \
		"sheet $s/courtyard-pond.lua $s/seattle_daily_2012_2015.csv --map $s/seattle-map.lua --report $to/sheet.html" \
		"leak $s/courtyard-pond.lua $s/seattle_daily_2012_2015.csv $s/courtyard-log.csv --map $s/seattle-map.lua --report $to/leak.html" \
		"whatif $s/courtyard-pond.lua $s/seattle_daily_2012_2015.csv tests/faults/study.lua --map $s/seattle-map.lua --csv $to/whatif.csv --report $to/whatif.html" \
		"commission $s/courtyard-pond.lua $s/courtyard-measured.lua --report $to/commission.html"; do
		name=${job%% *}
		[ -e "scripts/$name.lua" ] || continue
		env "$@" "$tarn" $job > "$to/$name.txt" 2> "$to/$name.err" || true
		sed -i "s|$to|FOLDER|g" "$to/$name.txt"
	done
}

differ=0
count=0
compare() {
	count=$((count + 1))
	diff -r "$work/plain" "$work/other" > "$work/diff" ||
		{ echo "same: differs under $1"; head -5 "$work/diff"; differ=1; }
	rm -rf "$work/other"
}

# away from what was built beside it: report-assets.js may be there or not
cp "$home/$first/tarn" "$work/tarn"
[ -z "$second" ] || cp "$home/$second/tarn" "$work/tarn-second"
export TARN_SCRIPTS=$home/scripts
tarn=$work/tarn
reports "$tarn" "$work/plain" LC_ALL=C TZ=UTC
[ "$(cat "$work"/plain/*.err | wc -c)" = 0 ] ||
	{ echo "same: a report fails:"; cat "$work"/plain/*.err; exit 1; }
[ -z "$comma" ] || {
	reports "$tarn" "$work/other" $comma TZ=UTC
	compare "a decimal comma"
	# and in a program that has set it, which the runner never does
	"$tarn" tests/tools/locale.lua C . > "$work/numbers"
	env $comma "$tarn" tests/tools/locale.lua de_DE.UTF-8 , > "$work/comma" || differ=1
	count=$((count + 1))
	cmp "$work/numbers" "$work/comma" || { echo "same: numbers follow the locale"; differ=1; }
}
for zone in Pacific/Kiritimati America/Los_Angeles; do
	reports "$tarn" "$work/other" LC_ALL=C TZ=$zone
	compare $zone
done
(umask 077; reports "$tarn" "$work/other" LC_ALL=C TZ=UTC)
[ -z "$(find "$work/other" -type f ! -perm 600)" ] ||
	{ echo "same: files that the mask forbids"; differ=1; }
compare "umask 077"
(ln -s "$home/weather-samples" "$home/scripts" "$home/tests" "$work/" && cd "$work" &&
	reports "$tarn" "$work/other" LC_ALL=C TZ=UTC)
compare "another folder"
[ -z "$second" ] || {
	reports "$work/tarn-second" "$work/other" LC_ALL=C TZ=UTC
	compare "another compiler"
}
echo "same: $(ls "$work/plain" | grep -vc err) reports, $count other settings"
exit $differ

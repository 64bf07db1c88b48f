#!/bin/sh
# SPDX-License-Identifier: MIT
# Lua 5.4 and libcsv from Debian's source packages, with Debian's patches, to
# FOLDER/lua and FOLDER/csv.  The lists of packages stay in the folder, so the
# machine's own are not changed.
#     sh bindings/web/get-sources.sh FOLDER
set -e

mkdir -p "$1/apt/parts" "$1/apt/lists/partial"
cd "$1"
for list in /etc/apt/sources.list.d/*.sources; do
	[ ! -e "$list" ] || sed 's/^Types:.*/Types: deb-src/' "$list" \
		> "apt/parts/$(basename "$list")"
done
for list in /etc/apt/sources.list /etc/apt/sources.list.d/*.list; do
	[ ! -e "$list" ] || sed -n 's/^deb /deb-src /p' "$list" \
		> "apt/parts/$(basename "$list" .list).list"
done
get()
{
	apt-get -qq -o Dir::Etc::sourcelist=/dev/null \
		-o Dir::Etc::sourceparts="$PWD/apt/parts" \
		-o Dir::State::lists="$PWD/apt/lists" \
		-o APT::Sandbox::User= "$@"
}
get update
get source --download-only lua5.4 libcsv
rm -rf lua csv
dpkg-source --no-check -x lua5.4_*.dsc lua > /dev/null
dpkg-source --no-check -x libcsv_*.dsc csv > /dev/null

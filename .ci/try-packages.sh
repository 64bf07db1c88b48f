#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs the packages of `make deb` in a new Debian root, runs each as a user
# would, removes them and looks for what is left.  Needs root and debootstrap.
#     sh .ci/try-packages.sh build/deb
set -eu
debs=$1
root=$(mktemp -d)
trap 'umount "$root/proc" 2> /dev/null || true; rm -rf "$root"' EXIT

inside() { chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin \
	DEBIAN_FRONTEND=noninteractive LC_ALL=C.UTF-8 "$@"; }

debootstrap --variant=minbase bookworm "$root" > "$debs/try-log" 2>&1 ||
	{ tail -5 "$debs/try-log"; exit 1; }
# the host's way to Debian's packages
for f in /etc/apt/apt.conf.d /etc/resolv.conf /etc/hosts /etc/ssl/certs \
	/usr/local/share/ca-certificates; do
	[ ! -e "$f" ] || { mkdir -p "$root/$(dirname $f)"; cp -rL "$f" "$root/$(dirname $f)/"; }
done
mkdir -p "$root/debs" && cp "$debs"/*.deb "$root/debs" && rm -f "$root"/debs/*dbgsym*

mount -t proc proc "$root/proc"
inside sh -c 'apt-get update -q && apt-get install -y -q --no-install-recommends \
	/debs/tarn_*.deb' >> "$debs/try-log" 2>&1 || { tail -5 "$debs/try-log"; exit 1; }
inside tarn --version
inside sh -c 'cd /usr/share/tarn/weather-samples && tarn topup courtyard-pond.lua \
	seattle_daily_2012_2015.csv --map seattle-map.lua' | sed -n 3,4p
inside sh -c 'apt-get install -y -q --no-install-recommends /debs/libtarn0.1_*.deb \
	/debs/libtarn-dev_*.deb /debs/lua-tarn_*.deb lua5.4 gcc libc6-dev pkgconf' \
	>> "$debs/try-log" 2>&1 || { tail -5 "$debs/try-log"; exit 1; }
inside lua5.4 -e 'print("Lua:", require("tarn").air.pressure(1800))'
inside sh -c 'printf "%s\n" "#include <stdio.h>" "#include <tarn.h>" "int main(void)" \
	"{ printf(\"C:	%.4f\\n\", tarn_air_pressure(1800)); return 0; }" > /u.c &&
	gcc -o /u /u.c $(pkg-config --cflags --libs tarn) && /u; rm -f /u /u.c'
inside sh -c 'apt-get purge -y -q tarn libtarn0.1 libtarn-dev lua-tarn lua5.4 gcc libc6-dev \
	pkgconf && apt-get autoremove --purge -y -q' >> "$debs/try-log" 2>&1
left=$(inside find / -xdev -path /proc -prune -o -type f -print | grep -i tarn | grep -v '^/debs' || true)
[ -z "$left" ] || { echo "left behind: $left"; exit 1; }
echo "packages: installed, tried and removed in a clean root"

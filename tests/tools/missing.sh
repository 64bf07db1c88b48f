#!/bin/sh
# SPDX-License-Identifier: MIT
# A system that lacks Lua's headers: `make` says so and installs nothing, `make
# deps` installs.  Stand-ins for pkg-config, apt-get and sudo play that system.
#     sh tests/tools/missing.sh build
set -eu
dir=$1/lacking
rm -rf "$dir"
mkdir -p "$dir/bin"
dir=$(cd "$dir" && pwd)

fail() { echo "missing: $*"; cat "$dir/said"; exit 1; }

stand_in() {
	{ echo '#!/bin/sh'; cat; } > "$dir/bin/$1"
	chmod +x "$dir/bin/$1"
}
stand_in pkg-config <<END
[ "\$1 \$2" != "--exists lua5.4" ] || [ -e "$dir/lua" ] || exit 1
exec $(command -v pkg-config) "\$@"
END
stand_in apt-get <<END
echo "\$*" >> "$dir/apt"
[ ! -e "$dir/useful" ] || [ "\$1" != install ] || touch "$dir/lua"
END
stand_in sudo <<'END'
exec "$@"
END

lacking() { PATH=$dir/bin:$PATH make -s B="$dir/build" "$@" > "$dir/said" 2>&1; }

for goal in all suite install; do
	! lacking $goal || fail "make $goal does not stop"
	[ ! -e "$dir/apt" ] || fail "make $goal installs"
	grep -q '^    .*apt-get install liblua5.4-dev$' "$dir/said" ||
		fail "make $goal does not say what is to be installed"
	[ -z "$(find "$dir/build" -name '*.o' 2> /dev/null)" ] || fail "make $goal builds"
done
for goal in demo test deps; do
	rm -f "$dir/apt"
	! lacking $goal || fail "make $goal does not notice that the install was in vain"
	grep -q '^install .* liblua5.4-dev$' "$dir/apt" || fail "make $goal does not install"
done
touch "$dir/useful"
rm -f "$dir/apt"
lacking deps || fail "make deps fails"
grep -q '^install .* liblua5.4-dev$' "$dir/apt" || fail "make deps does not install"
rm -f "$dir/apt"
lacking deps || fail "make deps fails where nothing is missing"
[ ! -e "$dir/apt" ] || fail "make deps installs what is there"
rm -rf "$dir"
echo "missing: make names what it lacks and installs nothing; make deps installs it"

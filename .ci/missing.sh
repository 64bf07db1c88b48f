#!/bin/sh
# SPDX-License-Identifier: MIT
# Names, by Debian's names, the packages that this system lacks: all that the
# build needs, or with 'tests' also what only the tests need.  Prints nothing
# when all is there.  A library counts as missing while nothing can look for it.
#     CC=gcc sh .ci/missing.sh build|tests
missing=

# need PACKAGES COMMAND...: the packages are missing if the command fails
need() {
	packages=$1
	shift
	"$@" > /dev/null 2>&1 || missing="$missing $packages"
}

links_csv() {
	printf '#include <csv.h>\nint main(void) { return 0; }\n' |
		${CC:-gcc} -x c - -lcsv -o /dev/null
}

case ${CC:-gcc} in
*clang*) compiler=clang ;;
*) compiler=gcc ;;
esac
need "$compiler libc6-dev" sh -c "command -v ${CC:-gcc}"
need binutils command -v ar
need pkgconf command -v pkg-config
need liblua5.4-dev pkg-config --exists lua5.4
need libcsv-dev links_csv
if [ "$1" = tests ]; then
	need lua5.4 command -v lua5.4
	need libcriterion-dev pkg-config --exists criterion
	need python3 python3 -c 'import csv'
fi
echo $missing

#!/bin/sh
# SPDX-License-Identifier: MIT
# Static analysis of lib/ and bindings/ by three tools; fails on any finding.
#
# Switched off, each with its reason:
#   cppcheck   autoVariables           a walk's scratch struct that outlives no call
#              legacyUninitvar, uninitStructMember, ctuuninitvar   blind to "filled on TARN_OK"
#   gcc        use-of-uninitialized-value, null-argument  the same, and lua_tostring()
#   clang-tidy DeprecatedOrUnsafeBufferHandling      wants the optional Annex K
#              ...valist.Uninitialized               false with va_start in clang 14
#              bugprone-macro-parentheses            macros that write rows of tables
#              NullDereference, CallAndMessage, UndefinedBinaryOperatorResult,
#              uninitialized.Branch                  blind to "filled on TARN_OK", as gcc's
#              insecureAPI.strcpy                    copies whose room was counted before
#              FloatLoopCounter                      counts of whole numbers, exact
#              integer-division, misplaced-widening-cast   meant so in each of 7 places
set -u
status=0
flags="-std=c11 -D_POSIX_C_SOURCE=200809L -Ilib $(pkg-config --cflags lua5.4)"

cppcheck --quiet --std=c11 --enable=warning,performance,portability \
	--suppress=missingIncludeSystem --suppress=autoVariables \
	--suppress=legacyUninitvar --suppress=uninitStructMember --suppress=ctuuninitvar \
	--suppress='preprocessorErrorDirective:*luaconf.h' \
	-D__GNUC__=12 -DLLONG_MAX=9223372036854775807LL -Ilib \
	$(pkg-config --cflags lua5.4) --error-exitcode=1 lib bindings/lua || status=1
echo "cppcheck: done"

checks='-*,clang-analyzer-*,-clang-analyzer-security.insecureAPI.DeprecatedOrUnsafeBufferHandling,-clang-analyzer-valist.Uninitialized,-clang-analyzer-core.NullDereference,-clang-analyzer-core.CallAndMessage,-clang-analyzer-core.UndefinedBinaryOperatorResult,-clang-analyzer-core.uninitialized.Branch,-clang-analyzer-security.insecureAPI.strcpy,-clang-analyzer-security.FloatLoopCounter,bugprone-infinite-loop,bugprone-sizeof-expression,bugprone-suspicious-memset-usage,bugprone-suspicious-string-compare,misc-redundant-expression'
for f in $(find lib bindings/lua -name '*.c'); do
	clang-tidy --quiet --warnings-as-errors='*' --checks="$checks" "$f" \
		-- $flags 2> /dev/null || status=1
done
echo "clang-tidy: done"

for f in $(find lib bindings/lua -name '*.c'); do
	gcc $flags -O1 -fanalyzer -Wno-analyzer-use-of-uninitialized-value -Wno-analyzer-null-argument -Werror -c "$f" -o /dev/null || status=1
done
echo "gcc -fanalyzer: done"
exit $status

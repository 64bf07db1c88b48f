# SPDX-License-Identifier: MIT
# Completion of tarn for bash.  The program itself says what it knows, so that
# nothing here needs to follow it.  A script of the user's own is never run.

# Takes of the lines on standard input those that begin with the word.
_tarn_offer() {
	local line word=${1#[\'\"]}

	while IFS= read -r line; do
		[[ -n $line && $line == "$word"* ]] || continue
		[[ $line == *' '* ]] && line=$(printf '%q' "$line")
		COMPREPLY+=("$line")
	done
}

_tarn() {
	local tarn=$1 word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]}
	local script=${COMP_WORDS[1]} known line

	COMPREPLY=()
	if [ "$COMP_CWORD" = 1 ]; then
		_tarn_offer "$word" < <("$tarn" 2> /dev/null |
			sed -n 's/^  \([a-z][a-z0-9-]*\) .*/\1/p'; printf '%s\n' --help --version)
	elif [[ $script =~ ^[a-z][a-z0-9-]*$ ]] &&
		known=$("$tarn" "$script" --completion 2> /dev/null < /dev/null); then
		if [ "${word#-}" != "$word" ]; then
			_tarn_offer "$word" < <(cut -f 1 <<< "$known")
		elif [ "${before#--}" != "$before" ]; then
			_tarn_offer "$word" < <(sed -n "s/^$before\t[^\t]*\t//p" <<< "$known" | tr '\t' '\n')
		fi
	fi
	[ ${#COMPREPLY[@]} -gt 0 ] && return
	while IFS= read -r line; do COMPREPLY+=("$line"); done < <(compgen -f -- "$word")
	[ -n "${COMP_TYPE:-}" ] && compopt -o filenames
}
complete -F _tarn tarn

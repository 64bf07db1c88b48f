# SPDX-License-Identifier: MIT
# Completion of tarn for bash.  The program itself says what it knows, so that
# nothing here needs to follow it.

_tarn() {
	local word=${COMP_WORDS[COMP_CWORD]} script=${COMP_WORDS[1]} tarn=$1

	COMPREPLY=()
	if [ "$COMP_CWORD" = 1 ]; then
		COMPREPLY=($(compgen -W "$("$tarn" 2> /dev/null |
			sed -n 's/^  \([a-z][a-z0-9-]*\) .*/\1/p') --help --version" \
			-- "$word"))
	elif [ "${word#--}" != "$word" ]; then
		COMPREPLY=($(compgen -W "$("$tarn" "$script" --help 2> /dev/null |
			sed -n 's/^  \(--[a-z0-9-]*\).*/\1/p')" -- "$word"))
	fi
	[ ${#COMPREPLY[@]} -gt 0 ] || COMPREPLY=($(compgen -f -- "$word"))
}
complete -o filenames -F _tarn tarn

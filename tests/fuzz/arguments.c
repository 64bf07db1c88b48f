/* SPDX-License-Identifier: MIT */
#include "state.h"

/*
 * A command line: the first line names a script, each other line is an
 * argument.  The scripts run up to the first file that they touch; nothing
 * is read or written.
 */
static const char program[] =
	"package.path = 'scripts/?.lua'\n"
	"package.cpath = ''\n"
	"local DONE = {}\n"
	"local function done() error(DONE, 0) end\n"
	"local scripts = {}\n"
	"for _, name in ipairs { 'topup', 'weather', 'convert', 'bed',\n"
	"                        'sheet', 'leak', 'whatif', 'commission' } do\n"
	"  scripts[name] = loadfile('scripts/' .. name .. '.lua')\n"
	"end\n"
	"assert(scripts.topup and scripts.weather)\n"
	"tarn.description, tarn.write_file = done, done\n"
	"tarn.weather.read = done\n"
	"if tarn.log then tarn.log.read = done end\n"
	"io = { write = function() end, open = done, lines = done,\n"
	"       popen = done, read = done, output = done, input = done,\n"
	"       stdout = { write = function() end, flush = function() end,\n"
	"                  setvbuf = function() end },\n"
	"       stderr = { write = function() end } }\n"
	"os = { exit = done, getenv = function() end, time = os.time,\n"
	"       date = os.date, clock = os.clock }\n"
	"print = function() end\n"
	"return function(text)\n"
	"  local words = {}\n"
	"  for line in (text .. '\\n'):gmatch('([^\\n]*)\\n') do\n"
	"    words[#words + 1] = line\n"
	"  end\n"
	"  local name = table.remove(words, 1)\n"
	"  arg = { [0] = name, table.unpack(words, 1, math.min(#words, 50)) }\n"
	"  local script = scripts[name]\n"
	"  if not script then return end\n"
	"  local fine, what = pcall(script)\n"
	"  if not fine and what ~= DONE then\n"
	"    if type(what) == 'table' then what = '(a table)' end\n"
	"    error(what, 0)\n"
	"  end\n"
	"end\n";

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	lua_State *L = fuzz_state(program);

	if (size > INPUT_MAX || memchr(data, 0, size))
		return 0;	/* no command line holds a NUL */
	lua_pushvalue(L, -1);
	lua_pushlstring(L, (const char *)data, size);
	fuzz_call(L, 1);
	MUST(lua_gettop(L) == 1);
	return 0;
}

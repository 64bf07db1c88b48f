/* SPDX-License-Identifier: MIT */
#include "state.h"

/*
 * A study file for `tarn whatif`, Lua or JSON.  The script itself runs, on a small pond and two months of weather that are
 * read once; a study that asks for many samples or years is left at that.
 */
static const char program[] =
	"package.path = 'scripts/?.lua'\n"
	"local DONE, MOST = {}, 20\n"
	"local days, values = 61, { tmin = {}, tmax = {}, wind = {}, rain = {} }\n"
	"for i = 1, days do\n"
	"  values.tmin[i], values.tmax[i] = i % 7 + 10, i % 11 + 20\n"
	"  values.wind[i], values.rain[i] = i % 5, i % 9 == 0 and i or 0\n"
	"end\n"
	"values.first, values.latitude, values.elevation = '2023-07-01', 47.5, 50\n"
	"values.wind_height = 10\n"
	"local weather = tarn.weather.table(values)\n"
	"local description = { basin = { shape = 'rectangle', length = 4, width = 3, depth = 1.2 },\n"
	"  lip = 1.1, trigger = 0.9, target = 1, bed = { area = 2 }, tank = { capacity = 1, roof = 20 } }\n"
	"local read = tarn.description\n"
	"tarn.description = function(path)\n"
	"  if path == 'pond' then return description, '' end\n"
	"  return read(path)\n"
	"end\n"
	"tarn.weather.read = function() return weather end\n"
	"for _, name in ipairs { 'latin', 'sobol', 'sensitivity_samples' } do\n"
	"  local made = tarn.study[name]\n"
	"  tarn.study[name] = function(count, ...)\n"
	"    if type(count) == 'number' and count > MOST then error(DONE, 0) end\n"
	"    return made(count, ...)\n"
	"  end\n"
	"end\n"
	"local generate = tarn.study.generate\n"
	"tarn.study.generate = function(w, options)\n"
	"  local years = type(options) == 'table' and options.years\n"
	"  if type(years) == 'number' and years > 2 then error(DONE, 0) end\n"
	"  return generate(w, options)\n"
	"end\n"
	"io.write = function() return io.stdout end\n"
	"local script = assert(loadfile 'scripts/whatif.lua')\n"
	"return function(path)\n"
	"  arg = { [0] = 'whatif', 'pond', 'weather', path, '--threads=1' }\n"
	"  local fine, what = pcall(script)\n"
	"  if not fine and what ~= DONE then error(what, 0) end\n"
	"end\n";

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	return fuzz_read(program, data, size);
}

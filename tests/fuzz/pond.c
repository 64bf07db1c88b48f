/* SPDX-License-Identifier: MIT */
#include "state.h"

/*
 * A pond description, Lua or JSON.  One that is accepted runs over two weeks of weather and must close its ledger.
 */
static const char program[] =
	"local weather = tarn.weather.table {\n"
	"  first = '2024-02-20', latitude = 47.5, elevation = 50,\n"
	"  wind_height = 10,\n"
	"  tmin = { 1,2,3,4,5,6,7,8,9,10,11,12,13,14 },\n"
	"  tmax = { 9,9,9,9,15,15,15,15,20,20,20,30,30,30 },\n"
	"  wind = { 1,2,3,4,5,6,7,8,9,1,1,1,0,2 },\n"
	"  rain = { 0,0,0,0,80,3,0,0,0,0,0,0,12,0 } }\n"
	"return function(path)\n"
	"  local pond = tarn.pond(tarn.description(path))\n"
	"  pond:facts()\n"
	"  tostring(pond)\n"
	"  local ledger = pond:run(weather)\n"
	"  assert(#ledger:days() == 14 and #ledger:months() == 2)\n"
	"end\n";

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	return fuzz_read(program, data, size);
}

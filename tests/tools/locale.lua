-- SPDX-License-Identifier: MIT
-- locale: what files are read to, and what is worked out of it, to the bit, in a
-- program that has set a locale; `same.sh` compares two of them.
--
--     tarn tests/tools/locale.lua LOCALE POINT    from the project's folder
--
-- POINT is how that locale writes a decimal point: it is asserted.

assert(os.setlocale(arg[1]), "there is no locale " .. arg[1])
assert(("%.1f"):format(0.5) == "0" .. arg[2] .. "5", "the locale writes another decimal point")

local function show(value)
  if type(value) ~= "table" then
    return math.type(value) == "float" and ("%016x"):format(string.unpack("i8", string.pack("d", value))) or tostring(value)
  end
  local names, out = {}, {}
  for name in pairs(value) do names[#names + 1] = name end
  table.sort(names, function(a, b) return tostring(a) < tostring(b) end)
  for i, name in ipairs(names) do out[i] = tostring(name) .. "=" .. show(value[name]) end
  return "{" .. table.concat(out, " ") .. "}"
end

local map = tarn.description "weather-samples/seattle-map.lua"
local weather = tarn.weather.read("weather-samples/seattle_daily_2012_2015.csv", map)
local json = tarn.description "tests/fuzz/corpus/pond/courtyard.json"
local pond = tarn.pond(tarn.description "weather-samples/courtyard-pond.lua")
local log = tarn.log.read "weather-samples/courtyard-log.csv"
print(show(weather:summary()))
print(show(json))
print(show(pond:facts()))
print(show(pond:run(weather):totals()))
print(show(log:readings()))
-- each unusual way to write a number, and each way to round it
print(show(tarn.weather.parse("date,tmin,tmax,rain\n2024-07-01,-1.5e+1,0.1234567890123456789,1e-300\n2024-07-02,.5,5.,+3.25\n",
  { units = { tmin = "C", tmax = "C", rain = "mm" } }):summary()))

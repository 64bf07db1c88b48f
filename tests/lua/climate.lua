-- SPDX-License-Identifier: MIT
-- tarn.climate: drawn weather, and a pond under it beside the days of the same station
local function refused(part, f, ...)
  local ok, why = pcall(f, ...)
  assert(not ok and tostring(why):find(part, 1, true), tostring(why))
end

-- ---- the list, and a weather -----------------------------------------------------------
local names = {}
for _, c in ipairs(tarn.climates()) do
  names[c.name] = c
  assert(#c.tmax == 12 and #c.wet_days == 12 and c.latitude and c.licence ~= "")
  assert(#tarn.climate(c.name):doubts() == 0)
end
assert(names.de_bilt and names.austin.place == "Austin, Texas, US")
local w = tarn.climate("austin", { years = 3, seed = 5 })
assert(w:days() == 1095 and w:first() == "1801-01-01" and w:last() == "1803-12-31")
assert(w:site().latitude == names.austin.latitude and w:column "rain" and not w:column "solar")
assert(w:notes()[1]:find("seed 5", 1, true))
assert(tarn.climate("austin"):days() == 10957)
refused("the nearest name is 'austin'", tarn.climate, "ausin")
refused("climate.years", tarn.climate, "austin", { years = 0 })
refused("whole number", tarn.climate, "austin", { seed = 1.5 })
refused("unknown", tarn.climate, "austin", { stream = 1 })
refused("name", tarn.climate)

-- ---- beside the days of De Bilt ---------------------------------------------------------------
-- 40 real years with sun, humidity and wind measured, and 30 of the climate: both means of a year's top-up have a
-- standard error of 0.2 of 4.4 m3, so that 3 of the difference are 16 %; and its range holds most of the real years.
local real = tarn.weather.read("weather-samples/de_bilt_daily_1980_2019.csv", { latitude = 52.1, elevation = 2 })
local pond = tarn.pond(tarn.description "weather-samples/courtyard-pond.lua")
local days, drawn = pond:forecast(real), pond:forecast(tarn.climate "de_bilt")
assert(math.abs(drawn.year.mean / days.year.mean - 1) < 0.16, drawn.year.mean)
assert(drawn.year.p10 < days.year.p10 + 0.1 * days.year.p50 and drawn.year.p90 > 0.9 * days.year.p90)
-- what it does not know: years differ less
assert(drawn.year.weather_p90 - drawn.year.weather_p10 < days.year.weather_p90 - days.year.weather_p10)

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

-- ---- on the command line -----------------------------------------------------------------------
local TARN = (os.getenv "TARN_BUILD" or "build") .. "/tarn"
local POND = " weather-samples/courtyard-pond.lua"

local function run(command)
  local pipe = assert(io.popen(TARN .. " " .. command .. " 2>&1"))
  local text = pipe:read "a"
  local _, _, status = pipe:close()
  return text, status
end
local function expect(command, status, part)
  local text, got = run(command)
  assert(got == status and text:gsub("%s+", " "):find(part, 1, true), ("%s: exit status %s: %s"):format(command, got, text:sub(1, 400)))
end

local LOUD = "In doubt: A CLIMATE, NOT YOUR WEATHER: days drawn by chance (seed 1) from the monthly normals 1981-2010 of Austin, Texas"
for _, command in ipairs { "topup", "sheet" } do
  local text, status = run(command .. POND .. " --climate austin")
  assert(status == 4 and text:sub(1, 600):gsub("%s+", " "):find(LOUD, 1, true), text:sub(1, 600))
  assert(text == run(command .. POND .. " --climate austin"), "the same days each time")
end
for _, option in ipairs { "--csv -", "--ranges -" } do
  local text, status = run("topup" .. POND .. " --climate austin " .. option)
  assert(status == 4 and text:match "^[^\n]*\n" == "# a climate, not your weather: drawn from the normals 1981-2010 of Austin, Texas, US, seed 1\n")
end
local listed, status = run "weather --climates"
assert(status == 0)
for name, c in pairs(names) do assert(listed:find(name, 1, true) and listed:find(c.station:match "^[%w ]+", 1, true), name) end

expect("topup" .. POND .. " --climate ausin", 2, "climate 'ausin' is unknown; the nearest name is 'austin'; tarn weather --climates lists all")
expect("topup" .. POND .. " w.csv --climate austin", 2, "--climate takes the place of WEATHER.csv: leave 'w.csv' out")
expect("topup" .. POND .. " --climate austin --dry-gaps", 2, "leave --dry-gaps out")
expect("topup" .. POND .. " --climate austin --latitude 30", 2, "leave --latitude out")
expect("topup" .. POND, 2, "WEATHER.csv is missing; usage")
expect("weather w.csv --climates", 2, "--climates takes the place of WEATHER.csv")

-- a description with a place of its own: another region is said
local folder = io.popen("mktemp -d"):read "l"
local file = assert(io.open(folder .. "/pond.lua", "w"))
file:write [[return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1 }, overflow_level = 0.9, trigger = 0.8,
  evaporation = { latitude = -34 } }]]
file:close()
expect("topup " .. folder .. "/pond.lua --climate austin", 4, "The description lies at latitude -34, this climate at 30.18")
os.execute("rm -r " .. folder)

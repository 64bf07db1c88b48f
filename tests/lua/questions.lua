-- SPDX-License-Identifier: MIT
-- The questions of a year in the top-up report: the same figures by runs of ponds that are described anew.
local TARN = (os.getenv "TARN_BUILD" or "build") .. "/tarn"
local POND, MAP = "weather-samples/courtyard-pond.lua", "weather-samples/seattle-map.lua"
local SEATTLE = "weather-samples/seattle_daily_2012_2015.csv"
local GAL = 3.785411784e-3          -- NIST SP 811 (2008), appendix B

local function run(options)
  local pipe = io.popen(("%s topup %s %s --map %s %s 2>&1"):format(TARN, POND, SEATTLE, MAP, options))
  local text = pipe:read "a":gsub("%s+", " ")
  return text, select(3, pipe:close())
end

local function number(text, pattern)
  local found = text:match(pattern)
  assert(found, pattern .. " is not in: " .. (text:match "Questions of a year.*" or text))
  return tonumber((found:gsub(",", "")))
end

local weather = tarn.weather.read(SEATTLE, tarn.description(MAP))
local function mains(change)
  local d = tarn.description(POND)
  change(d)
  return tarn.pond(d):run(weather):totals().topup / 1461 * 365.25 / GAL
end
local function near(a, b) assert(math.abs(a - b) <= 0.51, a .. " for " .. b) end      -- printed to a gallon

local text = run "--full"
local as_is = mains(function() end)
near(number(text, "half of the sun saves ([%d,]+) US gal"), as_is - mains(function(d) d.evaporation.shade = 0.85 / 2 end))
near(number(text, "finds room, saves ([%d,]+) US gal"), as_is - mains(function(d)
  d.trigger, d.target = d.trigger - 0.0254, d.target - 0.0254
end))
local function tank(size)
  return mains(function(d) d.tank = { roof = d.catchments[1].area, capacity = size * GAL } end)
end
near(number(text, " 250 US gal ([%d,]+) "), tank(250))
near(number(text, "1,000 US gal [%d,]+ ([%d,]+) "), as_is - tank(1000))
-- 1,956 US gal at 4 US gal a minute, and at 16.50 USD for 1,000
near(number(text, "up to ([%d,]+) US gal of basin"), 1956)
assert(text:find("8.1 h with the valve wide open, 32.27 USD", 1, true))

-- rules: the same ledger, allowed on some days alone
local function ruled(fields)
  local d = tarn.description(POND)
  for key, value in pairs(fields) do d.supply[key] = value end
  return tarn.pond(d):run(weather):totals()
end
local two, summer = ruled { weekdays = { 2, 6 } }, ruled { months = { 1, 2, 3, 4, 5, 9, 10, 11, 12 } }
near(number(text, "Tuesdays and Saturdays ([%d,]+) "), two.topup / 1461 * 365.25 / GAL)
assert(two.refused > 0 and math.abs(number(text, "Tuesdays and Saturdays [%d,]+ ([%d.]+) ") - two.refused / 1461 * 365.25) <= 0.051)
near(number(text, "None in Jun to Aug ([%d,]+) "), summer.topup / 1461 * 365.25 / GAL)
assert(math.abs(number(text, "None in Jun to Aug [%d,]+ [%d.]+ [%d.]+ ([%d.]+) ") - summer.under_intake / 1461 * 365.25) <= 0.051)
local lip = tarn.pond(tarn.description(POND)):facts().overflow_level
assert(math.abs(number(text, "None in Jun to Aug [%d,]+ [%d.]+ ([%d.]+) ") - (lip - summer.lowest_level) / 0.0254) <= 0.0051)
-- what the meter passes in July: the forecast's own week, by the day
local july = tarn.pond(tarn.description(POND)):forecast(weather).months[7]
near(number(text, "In Jul the fill takes ([%d,]+) US gal a day"), july.a_week.p50 / 7 / GAL)
near(number(text, "one week in ten more than ([%d,]+) US gal"), july.week.p90 / GAL)
assert(text:find("Away for two weeks without top-up: the water lasts in nine starts of ten, in every month", 1, true))

-- from the level of today: the ledger's own endurance, and the basin's volumes
text = run "--down '5 1/2 in'"
local pond = tarn.pond(tarn.description(POND))
local facts, basin = pond:facts(), pond:basin()
local from = facts.overflow_level - 5.5 * 0.0254
near(number(text, "the target%): ([%d,]+) US gal"), (basin:volume(facts.target) - basin:volume(from)) / GAL)
local worst
for _, m in ipairs(tarn.absence(pond:endurance(weather, { start_level = from }), "2012-01-01").months) do
  if m.p10 and (not worst or m.p10 < worst) then worst = m.p10 end
end
near(number(text, "bare after ([%d,]+) days"), worst)
local short = {}
for _, m in ipairs(tarn.absence(pond:endurance(weather, { start_level = from }), "2012-01-01").months) do
  if m.p10 and m.p10 < 14 then short[#short + 1] = os.date("%b", os.time { year = 2014, month = m.month, day = 15 }) end
end
assert(#short > 0 and run("--full --down '5 1/2 in'"):find(("from today's level: in one start of ten the intake is bare before, in %s."):format(
  table.concat(short, ", ")), 1, true))
text = run "--down '1/2 in'"
assert(text:find("nothing is to be added", 1, true), text)
for _, bad in ipairs { "'9 in'", "-0.1", "2" } do
  local said, status = run("--down " .. bad)
  assert(status == 2 and said:find("--down must be", 1, true), said)
end

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
text = run "--down '1/2 in'"
assert(text:find("nothing is to be added", 1, true), text)
for _, bad in ipairs { "'9 in'", "-0.1", "2" } do
  local said, status = run("--down " .. bad)
  assert(status == 2 and said:find("--down must be", 1, true), said)
end

-- SPDX-License-Identifier: MIT
-- Weather that cannot well be so is doubted in the first lines of every report.
local TARN = (os.getenv "TARN_BUILD" or "build") .. "/tarn"
local S = "weather-samples/"
local MAP = " --map " .. S .. "seattle-map.lua"

local function run(command)
  local pipe = assert(io.popen(TARN .. " " .. command .. " 2>&1"))
  local text = pipe:read "a"
  pipe:close()
  return text
end

local folder = io.popen("mktemp -d"):read "l"

-- The Seattle file with each row changed: f(row number, rain, tmax, tmin, wind).
local function put(name, f)
  local out, n = {}, 0
  for line in io.lines(S .. "seattle_daily_2012_2015.csv") do
    local date, rain, high, low, wind, rest = line:match "^([^,]*),([^,]*),([^,]*),([^,]*),([^,]*),(.*)$"
    if n > 0 then
      rain, high, low, wind = f(n, tonumber(rain), tonumber(high), tonumber(low), tonumber(wind))
      line = ("%s,%.4f,%.4f,%.4f,%.4f,%s"):format(date, rain, high, low, wind, rest)
    end
    out[#out + 1], n = line, n + 1
  end
  local file = assert(io.open(folder .. "/" .. name, "w"))
  file:write(table.concat(out, "\n"), "\n")
  file:close()
  return " " .. folder .. "/" .. name
end

local BAD = {
  { put("kmh.csv", function(_, r, h, l, w) return r, h, l, w * 3.6 end), "mean wind is 26.1 mph", "Are km/h taken for m/s?" },
  { put("inch.csv", function(_, r, h, l, w) return r / 25.4, h, l, w end), "a day with rain has 0.28 mm", "Are inches taken for mm?" },
  { put("c.csv", function(_, r, h, l, w) return r, (h - 32) / 1.8, (l - 32) / 1.8, w end), "mean temperature is 12 F",
    "Is Celsius taken for Fahrenheit?" },
  { put("f.csv", function(_, r, h, l, w) return r, math.min(60, h * 1.8 + 32), math.min(59, l * 1.8 + 32), w end),
    "mean temperature is 1", "Is Fahrenheit taken for Celsius?" },
  { put("999.csv", function(n, r, h, l, w) return n == 100 and 999.9 or r, h, l, w end), "rain is 999.9 mm on 1 day",
    "a code for a missing value?" },
  { put("99.csv", function(n, r, h, l, w) return n % 400 == 7 and 99.99 or r, h, l, w end), "rain is 99.99 mm on 4 days",
    "a code for a missing value?" },
}

local POND = " " .. S .. "courtyard-pond.lua"
local STUDY = folder .. "/study.lua"
local f = assert(io.open(STUDY, "w"))
f:write "return { scenarios = { { name = 'shadier', pond = { evaporation = { shade = 0.7 } } } } }"
f:close()

local function head(text)
  return text:match("^[^\n]*\n=+\n(.*)$"):sub(1, 500):gsub("%s+", " ")
end

for i, bad in ipairs(BAD) do
  local commands = { "topup" .. POND .. bad[1] .. MAP, "weather" .. bad[1] .. MAP .. " --units us" }
  if i == 5 then
    commands[3] = "sheet" .. POND .. bad[1] .. MAP
    commands[4] = "leak" .. POND .. bad[1] .. " " .. S .. "courtyard-log.csv" .. MAP
    commands[5] = "whatif" .. POND .. bad[1] .. " " .. STUDY .. MAP
  end
  for _, command in ipairs(commands) do
    local text = head(run(command))
    assert(text:find "^[^.:]* %d+ [ia][sr]e? in doubt[.:] .-%- In doubt: CHECK THE WEATHER FILE: ", command .. ": " .. text)
    assert(text:find(bad[2], 1, true) and text:find(bad[3], 1, true), command .. ": " .. text)
  end
end
local text = run("topup" .. POND .. BAD[5][1] .. MAP .. " --report " .. folder .. "/r.html")
local html = assert(io.open(folder .. "/r.html")):read "a"
assert(html:match '<section class="answer".-</section>':find "CHECK THE WEATHER FILE", "not in the report's answer")

assert(not run("topup" .. POND .. " " .. S .. "seattle_daily_2012_2015.csv" .. MAP):find "CHECK THE WEATHER")
os.execute("rm -r " .. folder)

-- ---- gaps: what is said of a weather of which a part is run -------------------------------

do
  local inputs, doubts, view_of = require "common.inputs", require "common.doubts", require "common.view"
  local rows = { "date,tmin_c,tmax_c,rain_mm,wind_ms_10m" }
  for i = 0, 1460 do
    local date = os.date("!%Y-%m-%d", 1356998400 + i * 86400)
    rows[#rows + 1] = ("%s,%s,14,%s,%s"):format(date, i == 200 and "" or "5", i == 400 and "" or "1", i < 700 and "" or "3")
  end
  local raw = tarn.weather.parse(table.concat(rows, "\n") .. "\n", {})
  local function said(options)
    local weather, done = inputs.ready("w.csv", raw, options, { evaporation = { latitude = 44 } })
    local list = {}
    doubts.add(list, weather, view_of "metric")
    return list, weather, done
  end
  local list, weather, done = said {}
  assert(#weather == 1461 and weather:counted() == 1096 and done.left_out == 365 and done.days == 1096)
  assert(done.missing.rain == 1 and done.filled.tmin == 1 and done.years_out == "2014" and done.estimated == 700)
  assert(#list == 1 and list[1].text:find("lacks rain on 1 day. The rule is --years most (", 1, true)
    and list[1].text:find("LEFT OUT: 2014, 365 days; 1,096 days are run.", 1, true), list[1].text)
  list, weather = said { years = "stretch" }
  assert(#weather == 1060 and list[1].text:find("--years stretch runs the longest stretch without a gap: 2014-02-06 to "
    .. "2016-12-31, 1,060 days; 401 days are left out.", 1, true), list[1].text)
  list, weather = said { stretch = true, years = "all" }        -- of somebody who cannot leave years out
  assert(#weather == 1060 and list[1].text:find("This command goes day by day and runs the longest stretch", 1, true), list[1].text)
  list, weather = said { years = "all" }
  assert(#weather == 1461 and #list == 1 and list[1].text:find("1 day without a rain reading is TAKEN AS DRY", 1, true), list[1].text)
  list, weather = said { years = "complete" }
  assert(#weather == 731 and list[1].text:find("LEFT OUT: 2013, 2014, 730 days; 731 days are run.", 1, true), list[1].text)
  list, weather = said { first = "2014-02-06" }
  assert(#list == 0 and #weather == 1060, "judged after the cut")
  list, weather, done = said { dry_gaps = true, bridge = 1 }
  assert(#list == 1 and #weather == 1461 and done.filled.rain == 1)
  list, weather = said { dry_gaps = true, bridge = 0 }
  assert(#list == 2 and #weather == 1260 and list[1].text:find("tmin on 1 day", 1, true))
end

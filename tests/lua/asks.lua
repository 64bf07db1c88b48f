-- SPDX-License-Identifier: MIT
-- What the page asks where a weather file is refused (bindings/web/asks.lua): words without
-- an option or a piece of a map, and answers that get on.
package.path = "scripts/?.lua;bindings/web/?.lua;" .. package.path
local examined = require "examined"

-- The words, and the answers; options: more of the command line.
local function asked(path, ...)
  local said = examined.of("", "", path, ...)
  return said.mistake or said.cannot, said.answers or {}, said
end

local function has(answers, key, value)
  for _, a in ipairs(answers) do
    if a[1] == key and a[2] == value then return true end
  end
  return false
end

local count = 0
for path in io.popen("ls tests/bad/*.csv tests/good/*.csv weather-samples/*.csv"):lines() do
  local words = asked(path)
  if words then
    count = count + 1
    assert(#words > 15 and not words:find "^[%w/]*%.csv", path .. ": " .. words)
    for _, phrase in ipairs { "%-%-%a", "[sS]ay [%w_]+ ?=", "%-map", "[,;:]$", "%.%.$" } do assert(not words:find(phrase), path .. ": " .. words) end
  end
end
assert(count > 100, count .. " refusals")

-- each question has its answers
for path, keys in pairs {
  ["tests/bad/american_date.csv"] = { dates = "us" }, ["tests/good/backwards.csv"] = { order = "sort" },
  ["tests/good/stations.csv"] = { duplicates = "last", hours = 24 }, ["tests/good/outliers.csv"] = { outliers = "missing" },
  ["tests/bad/commas_of_three_digits.csv"] = { decimal = "," }, ["tests/bad/minus_999.csv"] = { missing = "-999" },
  ["tests/good/codes.csv"] = { ["dry-gaps"] = true }, ["tests/good/noaa_access.csv"] = { bridge = "31" },
  ["tests/bad/hours_irregular.csv"] = { hours = 24 }, ["tests/bad/solar_unit_unknown.csv"] = { ["units.solar"] = "kW/m2" },
  ["tests/good/bare_names.csv"] = { ["file-units"] = "metric" }, ["tests/good/noaa_order.csv"] = { ["file-units"] = "tenths" },
} do
  local words, answers = asked(path)
  for key, value in pairs(keys) do
    assert(has(answers, key, value), ("%s: %s: no answer %s = %s"):format(path, words, key, value))
  end
end

-- units that give values which can be are said, where others do not
local _, units = asked "weather-samples/hancock_ghcn_order_2010_2020.csv"
assert(#units == 3 and units[1][3]:find "can be" and not units[2][3]:find "can be" and not units[3][3]:find "can be")
_, units = asked "tests/good/bare_names.csv"
assert(#units == 2 and not units[1][3]:find "can be", "where all do, none is said")

-- all stations of a file, though the second one stops the reading
local path = os.tmpname()
local file = assert(io.open(path, "w"))
file:write 'STATION,NAME,DATE,PRCP,TMAX,TMIN\nA1,"Mill, north",2015-01-01,1,5,1\nB2,"Mill, south",2015-01-01,1,5,1\n"C3",x,2015-01-01,1,5,1\nA1,x,2015-01-02,0,5,1\n'
file:close()
local words, list = asked(path, "--file-units", "metric")
os.remove(path)
assert(words:find "second station" and #list == 3 and list[1][2] == "A1" and list[2][2] == "B2" and list[3][2] == "C3", words)

-- what the answers of the pond say of the file is said in the same words
local place, answers, said = asked "weather-samples/csls_hancock_daily.csv"
assert(not place and #answers == 0 and said.figure)
said = examined.of("", "own.csv: the place is not known: say --latitude DEG (any map shows it)", "weather-samples/csls_hancock_daily.csv")
assert(said.cannot:find "^Where is the weather station%?" and said.figure)

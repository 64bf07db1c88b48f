-- SPDX-License-Identifier: MIT
-- Every report is one screen by default (a sheet one printed page) of 80 columns, with the pond in one line, and a caution;
-- --full has all of it. A figure that both print is the same.
local TARN = (os.getenv "TARN_BUILD" or "build") .. "/tarn"
local W = "weather-samples/"
local POND, STUDY = W .. "courtyard-pond.lua", W .. "courtyard-study.lua"
local SEATTLE, MAP = W .. "seattle_daily_2012_2015.csv", " --map " .. W .. "seattle-map.lua"
local SCREEN, PRINTED = 48, 64

local function run(command)
  local pipe = io.popen(("%s %s 2>&1"):format(TARN, command))
  local text = pipe:read "a"
  return text, select(3, pipe:close())
end

local function lines_of(text)
  local list = {}
  for line in text:gmatch "([^\n]*)\n" do list[#list + 1] = line end
  return list
end

-- command, what the caution says, lines
local REPORTS = {
  { "topup " .. POND .. " " .. SEATTLE .. MAP, "Children drown", 60 },
  { "bed " .. POND, "children drown", SCREEN },
  { "bed tests/good/lip-bed.lua", "children drown", SCREEN },
  { "bed tests/good/unsized-bed.lua", "children drown", SCREEN },
  { "sheet " .. POND .. " " .. SEATTLE .. MAP, "designs no structure", PRINTED },
  { "leak " .. POND .. " " .. SEATTLE .. " " .. W .. "courtyard-log.csv" .. MAP, "fish lack air", SCREEN },
  { "leak " .. POND .. " --off-hours 48 --off-drop 0.6 --off-bucket 0.5", "fish lack air", SCREEN },
  { "whatif " .. POND .. " " .. SEATTLE .. " " .. STUDY .. MAP, "look yours up", SCREEN },
  { "commission " .. POND .. " " .. W .. "courtyard-measured.lua", "plug out", SCREEN },
}

for _, report in ipairs(REPORTS) do
  for _, units in ipairs { "us", "metric" } do
    local command = report[1] .. " --units " .. units
    local text, status = run(command)
    local whole, other = run(command .. " --full")
    local list = lines_of(text)
    assert(status ~= 1 and status ~= 2 and status == other, command .. ": exit status " .. status)
    assert(#list <= report[3], ("%s: %d lines"):format(command, #list))
    for _, line in ipairs(list) do assert(utf8.len(line) < 80, command .. ": too wide: " .. line) end
    assert(#lines_of(whole) > #list or report[1]:find "commission" or report[1]:find "hours", command .. ": --full is shorter")
    local flat = text:gsub("%s+", " ")
    assert(flat:find(report[2], 1, true), command .. ": no caution")
    assert(flat:find(units == "us" and "gal when full" or "L when full", 1, true), command .. ": no pond in one line")
    assert(flat:find("More: --full", 1, true))
  end
end

-- A pond that only areas tell of has no sizes to be said.
local text = run "leak --area 150 --on-hours 48 --on-drop 1.4 --on-bucket 0.5"
assert(not text:find "when full" and text:find "fish")

-- The year's money, and a loss that goes on: 2,009 gal and 12.2 gal a day at 16.50 USD for 1,000.
text = run(REPORTS[8][1]):gsub("%s+", " ")
assert(text:find("2,009 US gal of top-up in a middle year, 33.15 USD, and 2,321 US gal in a dry one, 38.29 USD", 1, true), text)
text = run(REPORTS[6][1]):gsub("%s+", " ")
local most, gallons = text:match "at most ([%d.]+) USD a year", text:match "about %-?%d+ to (%d+) US gal/day"
assert(math.abs(most / 365.25 / 0.0165 - gallons) <= 0.51, most)

-- Of a bed that does not do, the worst stands first, and those that hold are counted.
text = run "bed tests/good/crowded-bed.lua"
local nos = select(2, text:gsub(" NO\n", ""))
assert(nos == 5 and text:find "1 of 11 checks holds; %-%-full lists all", text)
local first = text:match "%-%-%-\n([^\n]+)\n"
assert(first:find "NO", first)

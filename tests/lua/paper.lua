-- SPDX-License-Identifier: MIT
-- The sheet for readings: one page of HTML with the headings of a log; what is typed from it is read back.
local TARN = (os.getenv "TARN_BUILD" or "build") .. "/tarn"
local W = "weather-samples/"
local POND, SEATTLE, MAP = W .. "courtyard-pond.lua", W .. "seattle_daily_2012_2015.csv", " --map " .. W .. "seattle-map.lua"

local function run(command)
  local pipe = io.popen(("%s leak %s 2>&1"):format(TARN, command))
  local text = pipe:read "a"
  return text, select(3, pipe:close())
end

-- Fractions, a blank cell, an empty meter, a note with a comma, as people type them.
local TYPED = {
  us = { "2014-07-01,8:00,1 1/2,,", "2014-07-04,8:00,2 3/8,,hot", '2014-07-06,8:00,7/8,,"refilled, by hose"', "2014-07-07,,,,",
    "2014-07-09,8:00,1 3/4,," },
  metric = { "2014-07-01,8:00,38,,", "2014-07-04,8:00,60,,hot", '2014-07-06,8:00,22,,"refilled, by hose"', "2014-07-07,,,,",
    "2014-07-09,8:00,44,," },
}
for units, typed in pairs(TYPED) do
  local text, status = run(POND .. " --sheet - --units " .. units)
  assert(status == 0 and text:find("^<!doctype html>") and text:find("<h1>Courtyard pond: readings</h1>", 1, true), text)
  assert(not text:find "https?:" and text:find "Children drown")
  local names = {}
  for name in text:gmatch "<b>([%l_]+)</b>%S" do
    if name ~= "down" then names[#names + 1] = name end
  end
  assert(#names == 5, table.concat(names, " "))
  local first = table.concat(names, ",")
  assert(text:find("<code>" .. first .. "</code>", 1, true), first)
  local path = os.tmpname()
  local file = io.open(path, "w")
  file:write(first, "\n", table.concat(typed, "\n"), "\n")
  file:close()
  text, status = run(POND .. " " .. SEATTLE .. " " .. path .. MAP .. " --full --units " .. units)
  os.remove(path)
  assert(status == 0 or status == 4, text)
  assert(text:gsub("%s+", " "):find("2 of 3 intervals from 2014-07-01 to 2014-07-09", 1, true), text)
  assert(text:find "water was added")
end

-- The pond's own aids: 8 in from lip to intake, 83 gal an inch; without a description none.
local text = run(POND .. " --sheet -")
assert(text:find("One inch is 83 US gal. When it reads 8.00 in, the pump's intake is bare", 1, true), text)
local plain, status = run "--sheet -"
assert(status == 0 and plain:find("<h1>A pond: readings</h1>", 1, true) and not plain:find "intake")

-- A name of somebody else's stands as text; a file is named, and no input is written over.
local pond, out = os.tmpname(), os.tmpname()
local file = io.open(pond, "w")
file:write('return { name = "<b>&", basin = { shape = "rectangle", length = 4, width = 3, depth = 1 }, overflow_level = 0.9 }')
file:close()
os.rename(pond, pond .. ".lua")
text, status = run(pond .. ".lua --sheet " .. out)
assert(status == 0 and text:find("The sheet for readings is in " .. out, 1, true), text)
assert(io.open(out):read "a":find("<title>&lt;b&gt;&amp;: readings", 1, true))
text, status = run(pond .. ".lua --sheet " .. pond .. ".lua")
assert(status == 2, text)
os.remove(pond .. ".lua")
os.remove(out)

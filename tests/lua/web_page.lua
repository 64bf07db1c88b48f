-- SPDX-License-Identifier: MIT
-- The page's way into the program (bindings/web/page.lua), without a browser: its
-- blocks are those of the report, its files are told, a refusal names its field.
package.path = "scripts/?.lua;bindings/web/?.lua;" .. package.path
local page = require "page"

local POND, SEATTLE, MAP = "weather-samples/courtyard-pond.lua", "weather-samples/seattle_daily_2012_2015.csv", "weather-samples/seattle-map.lua"

local function read(path)
  local file = assert(io.open(path))
  local text = file:read "a"
  file:close()
  return text
end

-- A text of an item of JSON, its quotes and escapes away.
local function field(item, name)
  local text = item:match('"' .. name .. '":"(.-)"[,}]')
  return text and text:gsub("\\u00(%x%x)", function(hex) return string.char(tonumber(hex, 16)) end) or nil
end

-- All items of a question, in order.
local function ask(...)
  local items = {}
  page.start(...)
  for item in page.step do items[#items + 1] = item end
  return items
end

local report = os.tmpname()
local items = ask("topup", POND, SEATTLE, "--map", MAP, "--report", report)
local last, html, blocks = items[#items], read(report), 0
os.remove(report)
assert(last:find '"kind":"end"' and last:find(report, 1, true), "the last item tells the file: " .. last)
for _, item in ipairs(items) do
  local text = item:find '"block":"[^f]' and field(item, "html")
  if text then
    assert(html:find(text, 1, true), "not in the report: " .. text)
    blocks = blocks + 1
  end
end
assert(blocks > 15, blocks .. " blocks")
assert(items[1]:find '"kind":"title"' and field(items[2], "html"):find "No check says no", "what was found comes first")
assert(field(items[3], "html"):find "A usual year takes [%d,]+ US gal of top%-up", "then the answer")

-- at the end it comes again, and leads to the chapters
local function found_of(list)
  local last_of
  for _, item in ipairs(list) do
    if item:find '"block":"found"' then last_of = field(item, "html") end
  end
  return last_of
end
local judged = found_of(ask("bed", POND))
assert(judged:find 'See <a href="#c%d+">Every check</a>%.', judged)

-- a newer question ends an older one
page.start("bed", POND)
page.step()
local bed = ask("bed", POND)
assert(#bed > 30 and bed[#bed]:find '"status":4', bed[#bed])

-- refusals
local bad = ask("bed", "tests/bad/ponds/negative-depth.lua")
assert(#bad == 1 and bad[1]:find '"kind":"mistake"' and bad[1]:find '"status":2' and field(bad[1], "field") == "basin.depth", bad[1])
local none = ask("topup", POND, "no-such.csv")
assert(#none == 1 and field(none[1], "message"):find "no%-such%.csv" and not field(none[1], "field"), none[1])

-- what the form asks
local form = page.form()
for _, section in ipairs(tarn.pond_fields()) do
  for _, row in ipairs(section) do assert(form:find('"name":"' .. row.name .. '"', 1, true), row.name) end
end
for _, option in ipairs { "all-weeks", "off-hours", "materials", "wind-height" } do
  assert(form:find('"name":"' .. option .. '"', 1, true), option)
end
assert(not form:find("function: ", 1, true) and form:find('"choices":["auto"', 1, true), "values that a shell offers are a menu of the page")
assert(page.description(POND):find '"description":{' and page.description(SEATTLE):find '"mistake":"')

-- what a file leaves in doubt is told as it is opened, for its numbers have units then
local function opened(text)
  local path = os.tmpname()
  os.remove(path)
  path = path .. ".lua"
  local file = assert(io.open(path, "w"))
  file:write(text)
  file:close()
  local said = page.description(path, "us")
  os.remove(path)
  return said
end
assert(page.description(POND, "us"):find '"notes":%[%]')
local bare = opened "return { basin = { length = 24, width = 14 * ft, depth = 3 * ft }, overflow_level = 2.5 * ft }"
assert(bare:find '"notes":%["CHECK THE DESCRIPTION: basin.length = 24 has no unit', bare)
local old = opened "return { basin = { length = 4 * m, width = 3 * m, depth = 1 * m }, lip = 0.9 * m }"
assert(old:find '"notes":%["lip is called overflow_level now"%]' and old:find '"overflow_level":0.9', old)

-- a file is known by what stands in it, not by where it was dropped
local STUDY, MEASURED, LOG = "weather-samples/courtyard-study.lua", "weather-samples/courtyard-measured.lua", "weather-samples/courtyard-log.csv"
for path, kind in pairs { [POND] = "pond", ["weather-samples/csls_hancock_daily.csv"] = "weather", [MAP] = "map", [STUDY] = "study", [MEASURED] = "measured", [LOG] = "log",
  ["tests/bad/logs/not-a-date.csv"] = "log", ["tests/good/eccc.csv"] = "weather", ["tests/bad/unknown_header.csv"] = "weather" } do
  for _, here in ipairs { "", "pond", "weather", "log", "study", "measured" } do
    if not (path:find "unknown_header" and (here == "log" or here == "measured")) then
      assert(page.kind(path, here) == ('{"kind":"%s"}\n'):format(kind), path .. " dropped on " .. here .. ": " .. page.kind(path, here))
    end
  end
end
assert(page.kind("tests/bad/logs/no-ruler.csv", "log") == '{"kind":"log"}\n', "what nobody knows is what is expected there")

-- what a weather file was taken for, also of one that is refused
local sound = page.examine("", "", "weather-samples/csls_hancock_daily.csv", "--latitude", "44.1")
assert(sound:find '"figure":"<figure>' and sound:find '"use":"tmin"' and sound:find '"file_unit":"C"' and not sound:find '"mistake"', "a sound file")
local unknown = page.examine("", "", "tests/bad/unknown_header.csv")
assert(unknown:find '"mistake":"The headings in line 1 are not known' and unknown:find '"fields":%[{' and not unknown:find '"figure"', unknown)
page.start("bed", POND)
page.examine("", "", "weather-samples/csls_hancock_daily.csv")
assert(arg[0] == "bed", "a running question keeps its arguments")
assert(page.examine("", "", "no-such.csv"):find '"mistake":"' )
print "ok"

-- SPDX-License-Identifier: MIT
-- new: a description of your own pond, from six questions
local args = require "common.args"
local inputs = require "common.inputs"
local view_of = require "common.view"

local six = require "common.six_questions"

local LISTS = {}
for _, q in ipairs(six.QUESTIONS) do LISTS[q.key] = q.list end

local function words_of(list)
  return function()
    local out = {}
    for i, item in ipairs(list) do out[i] = item.word end
    return out
  end
end

local spec = {
  usage = "tarn new POND.lua [options]",
  purpose = "Asks six questions about a pond and writes a description that every other command reads.",
  positions = { { name = "POND.lua", key = "pond", meaning = "file to write; one that is there is not touched" } },
  options = {
    { name = "name", value = "TEXT", meaning = "of the pond" },
    { name = "shape", value = "NAME", offers = words_of(LISTS.shape), meaning = "rectangle, ellipse, irregular" },
    { name = "size", value = "A x B", meaning = "greatest length and width, as '24 ft x 14 ft' or '7 m x 4.5 m'" },
    { name = "depth", value = "LENGTH", meaning = "from the edge down to the floor" },
    { name = "full", value = "LENGTH", meaning = "from the edge down to the water when the pond is full" },
    { name = "sun", value = "WORDS", offers = words_of(LISTS.sun), meaning = "on the water, in the words of the question" },
    { name = "wind", value = "WORDS", offers = words_of(LISTS.wind), meaning = "over the water, likewise" },
  },
  more = "An option answers its question; the others are asked. Lengths: 3 ft 6 in, 39 1/2 in, 4'3\", 1.2 m.",
}

-- ---- answers -----------------------------------------------------------------------

local function length(text)
  local x, why = tarn.typed(text, "m")
  if x and x > 0 then return { m = x, metric = text:find "%d%s*[cm]?m%f[%A]" ~= nil } end
  return nil, x and "must be more than nothing" or why
end

-- "24 ft x 14 ft"
local function size(text)
  local long, wide = text:match "^(.-)%s*[xX*]%s*(.+)$"
  if not long then
    long, wide = text:match "^(.-)%s*\u{d7}%s*(.+)$"
  end
  if not long then return nil, "must be two lengths, as 24 ft x 14 ft" end
  local a, why = length(long)
  if not a then return nil, why end
  local b
  b, why = length(wide)
  if not b then return nil, why end
  return { long = a.m >= b.m and a or b, wide = a.m >= b.m and b or a }
end

-- One of a list by its number or its word.
local function choice(list)
  return function(text)
    local n = math.tointeger(tonumber(text))
    if n and list[n] then return list[n] end
    local names = {}
    for i, item in ipairs(list) do
      if item.word == text:lower() then return item end
      names[i] = item.word
    end
    local near = tarn.nearest(text, names)
    return nil, near and ("is none of these: did you mean '%s'?"):format(near) or "is none of these: " .. table.concat(names, ", ")
  end
end

local READ = { shape = choice(LISTS.shape), size = size, depth = length, full = length, sun = choice(LISTS.sun), wind = choice(LISTS.wind) }

local function show(number, q)
  io.write(("\n%d of %d. %s%s\n"):format(number, #six.QUESTIONS, q.ask, q.hint and " (" .. q.hint .. ")" or ""))
  for i, item in ipairs(q.list or {}) do io.write(("   %d  %-14s %s\n"):format(i, item.word, item.meaning)) end
end

-- Asks until an answer can be taken.
local function asked_of(number, q)
  show(number, q)
  while true do
    io.write "> "
    io.flush()
    local text = io.read "l"
    if not text then
      tarn.mistake(("the input ended before question %d (%s) was answered: nothing was written"):format(number, q.key))
    end
    text = text:match "^%s*(.-)%s*$"
    local value, why = READ[q.key](text)
    if value then return value end
    io.write(("'%s' %s\n"):format(tarn.visible(text), why))
  end
end

local function answers(asked)
  local out = {}
  for number, q in ipairs(six.QUESTIONS) do
    if asked[q.key] then
      local value, why = READ[q.key](asked[q.key])
      if not value then tarn.mistake(("--%s '%s' %s"):format(q.key, asked[q.key], why)) end
      out[q.key] = value
    else
      out[q.key] = asked_of(number, q)
    end
  end
  return out
end

-- ---- the description -----------------------------------------------------------------

-- A length in the unit in which it was typed.
local function written(x)
  if x.metric then return ("%.6g"):format(x.m) end
  local inches = x.m / tarn.units.inch
  local feet = inches // 12
  local rest = inches - 12 * feet
  if feet < 2 then return ("%.6g * inch"):format(inches) end
  return rest < 1e-6 and ("%d * ft"):format(feet) or ("%d * ft + %.6g * inch"):format(feet, rest)
end

local TEXT = [[
-- %s, written by tarn new.  A number is multiplied by its unit (inch, ft, cm,
-- gal ...); a bare length is in metres.  Levels are heights above the floor.
-- Every field: docs/pond.md.
local depth = %s                        -- from the edge down to the floor
local full = depth - %s                 -- the water when the pond is full

return {
  name = %q,
  basin = {
    shape = %q, length = %s, width = %s, depth = depth,%s
    side_slope = 0.2,                   -- ASSUMED: walls lean back 1 in 5; 0 is upright
  },
  overflow_level = full,                -- above it the water runs off
  target = full - %s,                   -- ASSUMED: topping up ends here
  trigger = full - %s,                  -- ASSUMED: and begins here

  -- surroundings = "lawn", "paving" ... narrow the ranges; so does
  -- station = "5 km", how far off the weather was measured
  site = { sun = %q, wind = %q },

  -- these make the answers better, once you know them:
  -- bed = { area = 30 * ft2, depth = 2 * ft },          -- planted gravel
  -- stream = { length = 7 * ft, width = 18 * inch },
  -- splash = 3 * gpd,                                   -- measured
  -- costs = { water = 7.50 / kgal, currency = "USD" },  -- of the water bill
}
]]

local NOTE_AT = 40            -- column at which a note behind a line begins

-- Puts the notes of lines one under the other.
local function aligned(text)
  return (text:gsub("[^\n]+", function(line)
    local code, note = line:match "^(.-)%s+(%-%- .*)$"
    if not code or not code:find "%S" or code:find "^%s*%-%-" then return nil end
    return code .. (" "):rep(math.max(2, NOTE_AT - #code)) .. note
  end))
end

local function compose(name, a)
  local metric = a.depth.metric
  local shown = name:gsub("%c", " ")
  return aligned(TEXT:format(shown, written(a.depth), written(a.full), shown, a.shape.word, written(a.size.long), written(a.size.wide),
    a.shape.word == "irregular" and "\n    area_factor = 0.8, -- ASSUMED: share of length x width" or "",
    metric and "0.015" or "0.5 * inch", metric and "0.04" or "1.5 * inch", a.sun.word, a.wind.word))
end

-- The same as numbers, to see whether such a pond can be before anything is written.
local function check(name, a)
  if a.depth.m - a.full.m <= 0 then tarn.mistake "the water would stand under the floor: the third answer is the depth, the fourth is measured down from the edge" end
  return tarn.pond(six.description(name, { shape = a.shape.word, length = a.size.long.m, width = a.size.wide.m, depth = a.depth.m, full = a.full.m,
    sun = a.sun.word, wind = a.wind.word }, a.depth.metric and "metric" or "us"))
end

-- ---- main ----------------------------------------------------------------------------

local asked = args.read(spec)
if not asked.pond:find "%.lua$" then tarn.mistake(("POND.lua must end in .lua, got '%s'"):format(asked.pond)) end
local there = io.open(asked.pond)
if there then
  there:close()
  tarn.mistake(asked.pond .. " is there already and is not touched: take another name, or move it away")
end
local name = asked.name or "My pond"
local a = answers(asked)
local ok, pond = inputs.tried(check, name, a)
if not ok then tarn.mistake("such a pond cannot be: " .. tostring(type(pond) == "table" and pond.text or pond)) end
tarn.write_file(asked.pond, compose(name, a))

local view, facts = view_of(a.depth.metric and "metric" or "us"), pond:facts()
io.write(("\n%s is in %s: %s of water when full, %s of surface.\n"):format(tarn.visible(name), tarn.visible(asked.pond),
  view:show("volume", facts.full_volume), view:show("area", facts.full_area)))
io.write(([[
Lines marked ASSUMED are ours: look at them. The water's meter at the first fill is better than any tape.

How much water it takes, on weather of your own (docs/weather-sources.md says where to get some):
  tarn topup %s WEATHER.csv
or, until you have some, in a climate like yours (tarn weather --climates lists them):
  tarn topup %s --climate NAME
Children drown in inches of water: barriers and depths are local law.
]]):format(tarn.visible(asked.pond), tarn.visible(asked.pond)))

-- SPDX-License-Identifier: MIT
-- What the page's sheet shows of a weather file: what it was taken for, what is
-- done about its gaps, and a picture; of one that is refused, as far as it is known.
local args = require "common.args"
local asks = require "asks"
local chart = require "common.chart"
local html = require "common.html"
local inputs = require "common.inputs"
local svg = require "common.svg"

local examined = {}

local C = svg.colors
local WIDTH, LEFT, RIGHT = chart.WIDTH, chart.LEFT, chart.RIGHT
local BUNDLES = 350           -- that a drawing can tell apart

-- Columns of the upper drawing, and of the lower one the first that there is.
local WARM = { { "tmax", C.sun }, { "tmin", C.water }, { "tmean", C.sun }, { "dewpoint", C.plant } }
local OTHER = { "rain", "pan", "reference", "open_water", "solar", "sunshine", "wind", "rh_mean", "rh_max", "rh_min", "vapour", "pressure" }

-- ---- the picture ------------------------------------------------------------

-- Least and greatest of each bundle of days; false where all are missing.
local function bundled(values)
  local size, out = math.max(1, math.ceil(#values / BUNDLES)), {}
  for from = 1, #values, size do
    local low, high
    for i = from, math.min(from + size - 1, #values) do
      local x = values[i]
      if x == x then low, high = math.min(low or x, x), math.max(high or x, x) end
    end
    out[#out + 1] = low and { low, high } or false
  end
  return out
end

local function bounds(list)
  local low, high = math.huge, -math.huge
  for _, bundles in ipairs(list) do
    for _, b in ipairs(bundles) do
      if b then low, high = math.min(low, b[1]), math.max(high, b[2]) end
    end
  end
  return low, math.max(high, low + 1)
end

local function draw_bars(d, bundles, y, color)
  local step = (WIDTH - LEFT - RIGHT) / #bundles
  for i, b in ipairs(bundles) do
    if b then
      local top, bottom = y(b[2]), y(b[1])
      d:rect(LEFT + (i - 1) * step, top, math.max(0.8, step * 0.8), math.max(0.8, bottom - top), { fill = color })
    end
  end
end

local function panel(d, weather, columns, unit, from_zero, top, bottom)
  local drawn = {}
  for i, column in ipairs(columns) do drawn[i] = bundled(weather:column(column[1])) end
  local low, high = bounds(drawn)
  local y = chart.axis(d, from_zero and math.min(0, low) or low, high, unit, top, bottom, 4)
  if from_zero then
    for _, b in ipairs(drawn[1]) do if b then b[1] = 0 end end
  end
  local key = {}
  for i, column in ipairs(columns) do
    draw_bars(d, drawn[i], y, column[2])
    key[i] = { column[1], column[2] }
  end
  chart.key(d, key, top - 14)
end

local function picture(weather)
  local summary, warm, other = weather:summary(), {}, nil
  for _, column in ipairs(WARM) do
    if #warm < 2 and summary[column[1]] and summary[column[1]].present > 0 then warm[#warm + 1] = column end
  end
  for _, name in ipairs(OTHER) do
    other = other or summary[name] and summary[name].present > 0 and name or nil
  end
  local d = svg.drawing(WIDTH, #warm > 0 and other and 330 or 200, "The weather of the file",
    ("From %s to %s"):format(weather:first(), weather:last()))
  local middle = 30
  if #warm > 0 then
    panel(d, weather, warm, summary[warm[1][1]].unit, false, 30, 150)
    middle = 200
  end
  if other then panel(d, weather, { { other, C.rain } }, summary[other].unit, true, middle, d.height - chart.BOTTOM) end
  chart.text(d, LEFT, d.height - 8, weather:first(), "start", C.faint)
  chart.text(d, WIDTH - RIGHT, d.height - 8, weather:last(), "end", C.faint)
  return html.block({ kind = "figure", function() return d:source() end, "The weather of the file: least and greatest of each bundle of days", {} }, "the file")
end

-- ---- what will be done --------------------------------------------------------

local function days(n) return n == 1 and "1 day" or ("%d days"):format(n) end

-- A message of the file without its name, which the sheet has already.
local function plain(path, why)
  local text = type(why) == "table" and why.text or tostring(why)
  if text:sub(1, #path + 1) == path .. ":" then text = text:sub(#path + 2):gsub("^(%d+):(%d+):", "line %1, column %2:"):gsub("^(%d+):", "line %1:") end
  return (text:gsub("^%s+", "")), type(why) == "table" and why.path or nil
end

-- Sentences about gaps, and the weather that is run; nil, why and its field where it
-- cannot be.
local function run_of(weather, asked, e)
  local made, ready, done = pcall(tarn.evaporation.ready, weather, { method = e.method, latitude = e.latitude },
    { first = asked.first, last = asked.last, bridge = asked.bridge, bridge_others = asked.bridge, rain = asked.dry_gaps and "zero" or nil,
      years = asked.years or inputs.YEARS })
  if not made then return {}, nil, plain(asked.weather, ready) end
  local list = {}
  if done.left_out > 0 then
    list[1] = ("Used: %s to %s%s; %s left out, for want of what the method needs."):format(done.first, done.last,
      done.years_out and " without " .. done.years_out or "", done.left_out == 1 and "1 day is" or days(done.left_out) .. " are")
  end
  return list, ready
end

local function gaps_of(file, list)
  for _, c in ipairs(file.columns) do
    if c.missing > 0 and c.present > 0 then
      list[#list + 1] = ("%s: missing on %s, the longest gap has %s."):format(c.name, days(c.missing), days(c.longest_gap))
    elseif c.present == 0 then
      list[#list + 1] = ("%s: no value at all."):format(c.name)
    end
  end
end

-- What a description says of evaporation; nothing where there is none.
local function evaporation(path)
  local read, d = pcall(tarn.description, path)
  return read and type(d.evaporation) == "table" and d.evaporation or {}
end

-- Why a file is refused, in words of the page, and what can be answered at once.
local function refuse(said, key, path, why, field, map)
  said[key], said.answers, said.field = asks.of(why, path, said.file, map, field)
end

-- pond: the description's path, "" if any; refused: what the answers say of this file, "" if
-- nothing; then the file and options, as of a command.  A picture is there whenever the file
-- could be read.
function examined.of(pond, refused, ...)
  local before = arg                      -- of a question that is running
  arg = { [0] = "file", ... }
  local asked = args.read { usage = "", purpose = "", positions = { { name = "FILE", key = "weather", meaning = "" } }, options = inputs.with_weather {} }
  arg = before
  local path, map, said = asked.weather, inputs.map(asked.weather, asked), { said = {} }
  local made, file, weather, why = pcall(tarn.weather.examine, path, map)
  if not made or why then
    said.file = made and file or nil
    local text, field = plain(path, made and why or file)
    if made and not field and not file.layout and #file.fields > 1 and text:find("of no layout", 1, true) then
      said.mistake = ("The headings in line %d are not known here. Say in the table what each column is and in which unit, the date first."):format(file.header_line)
    else refuse(said, "mistake", path, text, field, map) end
    return said
  end
  said.file = file
  gaps_of(file, said.said)
  local done, ready, cannot, field = run_of(weather, asked, evaporation(pond))
  table.move(done, 1, #done, #said.said + 1, said.said)
  if cannot or refused ~= "" then refuse(said, "cannot", path, cannot or plain(path, refused), field, map) end
  said.notes = (ready or weather):notes()
  said.figure = picture(weather)
  return said
end

return examined

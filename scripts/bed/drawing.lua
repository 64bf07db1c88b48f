-- SPDX-License-Identifier: MIT
-- The bed's cross-section to scale, from the far side to the lip and the pond,
-- for a builder's client.  The water comes up from an open chamber with a
-- clean-out well, or out of a slotted pipe where the lowest layer is stone.
local report = require "bed.report"
local svg = require "common.svg"

local drawing = {}

local WIDTH = 1060
local LEFT, RIGHT, TOP = 150, 300, 170
local DEEPEST = 460             -- room below the ground
local INK, WATER, EARTH, LINER = "#333", "#cfe6f2", "#e9dfcd", "#222"
-- stone from dark to light, as the layers rise
local STONES = { "#8d8478", "#a59b8c", "#bdb3a2", "#d0c6b4", "#ddd5c6" }

-- The same stones on every machine: numbers in [-1, 1) from the library's rule
-- x -> (a x + c) mod m of Park and Miller's kind, kept whole.
local function dice(seed)
  local state = seed
  return function()
    state = (state * 16807) % 2147483647
    return state / 1073741823.5 - 1
  end
end

-- A pebble: an oval polygon with an uneven edge.
local function pebble(d, x, y, r, roll, fill)
  local points, sides, turn = {}, r > 4 and 9 or 6, roll() * math.pi
  for i = 1, sides do
    local a = 2 * math.pi * i / sides
    local edge = r * (0.9 + 0.1 * roll())
    local px, py = edge * math.cos(a), 0.82 * edge * math.sin(a)
    points[i] = { x + px * math.cos(turn) - py * math.sin(turn), y + px * math.sin(turn) + py * math.cos(turn) }
  end
  d:polygon(points, { fill = fill, stroke = "#6b6459", stroke_width = r > 4 and 0.7 or 0.35 })
end

-- Fills a box with stones of their true size; none is drawn under 4 units.
local function stones(d, x, y, width, height, diameter, seed, fill)
  local roll, size = dice(seed), math.min(math.max(diameter, 4), height)
  local rows = math.max(1, math.floor(height / (0.86 * size) + 0.2))
  local across = math.max(1, math.floor(width / size))
  local dx, dy = width / across, height / rows
  for row = 1, rows do
    local shift = row % 2 == 0 and dx / 2 or 0
    for i = 1, across - (shift > 0 and 1 or 0) do
      local r = 0.5 * math.min(size, dx, dy / 0.82) * (0.93 + 0.07 * roll())
      pebble(d, x + shift + (i - 0.5) * dx + 0.04 * dx * roll(), y + (row - 0.5) * dy + 0.03 * dy * roll(), r, roll,
        fill)
    end
  end
end

local function plant(d, x, y, height, roll)
  for i = -2, 2 do
    local lean = i * 5 + 3 * roll()
    local h = height * (0.75 + 0.25 * roll())
    d:add(('<path d="M%.1f %.1f Q%.1f %.1f %.1f %.1f" fill="none" stroke="#5d8a4a" stroke-width="1.8" stroke-linecap="round"/>')
      :format(x + i, y, x + i * 1.5, y - 0.6 * h, x + lean, y - h))
  end
  for i = -1, 1 do
    d:add(('<path d="M%.1f %.1f q%.1f %.1f %.1f %.1f" fill="none" stroke="#a08a63" stroke-width="0.8"/>')
      :format(x + i * 2, y, i * 4, 10, i * 7 + 2 * roll(), 18 + 4 * roll()))
  end
end

local function arrow(d, x1, y1, x2, y2, colour)
  local a = math.atan(y2 - y1, x2 - x1)
  d:line(x1, y1, x2, y2, { stroke = colour, stroke_width = 1.6 })
  d:polygon({ { x2, y2 }, { x2 - 8 * math.cos(a - 0.4), y2 - 8 * math.sin(a - 0.4) },
    { x2 - 8 * math.cos(a + 0.4), y2 - 8 * math.sin(a + 0.4) } }, { fill = colour })
end

-- A dimension line with ticks at both ends.
local function dimension(d, x1, y1, x2, y2, label)
  local style = { stroke = INK, stroke_width = 0.8 }
  d:line(x1, y1, x2, y2, style)
  local tx, ty = x1 == x2 and 5 or 0, x1 == x2 and 0 or 5
  d:line(x1 - tx, y1 - ty, x1 + tx, y1 + ty, style)
  d:line(x2 - tx, y2 - ty, x2 + tx, y2 + ty, style)
  if x1 == x2 then
    local x, y = x1 - 8, (y1 + y2) / 2
    d:text(x, y, label, { anchor = "middle", transform = ("rotate(-90 %.1f %.1f)"):format(x, y) })
  else
    d:text((x1 + x2) / 2, y1 + 17, label, { anchor = "middle" })
  end
end

-- ---- the parts -----------------------------------------------------------------

-- Where things stand, in units of the drawing.
local function frame_of(job)
  local f, drop = {}, job.bed.drop or 0
  local tall = math.max(job.full_depth, job.depth + drop)
  f.scale = math.min((WIDTH - LEFT - RIGHT - 130) / job.length, DEEPEST / math.max(tall, 0.1))
  f.x, f.width = LEFT, job.length * f.scale
  f.top = TOP
  f.bottom = TOP + job.full_depth * f.scale
  f.lip = f.bottom - job.depth * f.scale
  f.right = f.x + f.width
  f.pond = job.bed.drop and f.lip + drop * f.scale or f.lip + 40
  f.floor = math.max(f.bottom, f.pond + 30) + 14
  f.height = f.floor + 130
  return f
end

local function put_ground(d, f)
  d:rect(20, f.top, f.right - 20, f.floor - f.top + 26, { fill = EARTH })
  d:line(20, f.top, f.x, f.top, { stroke = "#8a7a5c", stroke_width = 2 })
  -- the pond beyond the lip
  d:rect(f.right + 26, f.pond, WIDTH - RIGHT - 10 - f.right - 26, f.floor - f.pond + 26, { fill = WATER })
  d:line(f.right + 26, f.pond, WIDTH - RIGHT - 10, f.pond, { stroke = "#3b7fa6", stroke_width = 1.5 })
  -- the sill that holds the lip
  d:polygon({ { f.right, f.lip }, { f.right + 14, f.lip }, { f.right + 26, f.floor + 26 }, { f.right, f.floor + 26 } },
    { fill = "#b9ad98", stroke = "#6b6459" })
end

local function layer_list(job)
  if job.bed.layers then return job.bed.layers end
  return { { name = "gravel", thickness = job.full_depth, diameter = job.bed.diameter or 0.02,
    unknown = not job.bed.diameter } }
end

local function put_layers(d, job, f)
  d:rect(f.x, f.lip, f.width, f.bottom - f.lip, { fill = WATER })
  local y, rank, places = f.bottom, 0, {}
  for i, layer in ipairs(layer_list(job)) do
    local h = layer.thickness * f.scale
    y = y - h
    if layer.diameter then
      rank = math.min(rank + 1, #STONES)
      stones(d, f.x + 1, y, f.width - 2, h, layer.diameter * f.scale, 7919 * i, STONES[rank])
    else
      for k = 1, math.floor(f.width / 26) do      -- crates or an open chamber
        d:line(f.x + 26 * k, y + 2, f.x + 26 * k, y + h - 1, { stroke = "#7d97a5", stroke_width = 0.6 })
      end
      d:line(f.x, y + 1, f.right, y + 1, { stroke = "#7d97a5", stroke_width = 1.2 })
    end
    if i > 1 then d:line(f.x, y + h, f.right, y + h, { stroke = INK, stroke_width = 0.5, stroke_dasharray = "2 3" }) end
    places[i] = { layer = layer, y = y + h / 2 }
  end
  -- liner, up both sides and over the sill
  d:polyline({ { f.x - 30, f.top - 1 }, { f.x, f.top - 1 }, { f.x, f.bottom }, { f.right, f.bottom }, { f.right, f.lip },
    { f.right + 15, f.lip }, { f.right + 27, f.floor + 26 } }, { stroke = LINER, stroke_width = 2.4 })
  return places
end

local function put_water(d, job, f, view)
  local line = { stroke = "#2d6f97", stroke_width = 1.6 }
  d:line(f.x, f.lip, f.right + 14, f.lip, line)
  local mark = f.x + f.width * 0.46
  d:polygon({ { mark - 6, f.lip - 9 }, { mark + 6, f.lip - 9 }, { mark, f.lip } }, { fill = "#2d6f97" })
  -- over the lip and down
  d:add(('<path d="M%.1f %.1f C%.1f %.1f %.1f %.1f %.1f %.1f" fill="none" stroke="#5aa2c9" stroke-width="4" opacity="0.8"/>')
    :format(f.right + 2, f.lip - 2, f.right + 24, f.lip - 2, f.right + 32, f.lip + 20, f.right + 36, f.pond))
  for i = 1, 3 do       -- up through the stone, or along it
    local x, deep = f.x + f.width * (0.2 + 0.2 * i), f.bottom - f.lip
    if job.bed.direction == "horizontal" then
      arrow(d, x - 22, f.lip + 0.25 * i * deep, x + 22, f.lip + 0.25 * i * deep, "#2d6f97")
    else
      arrow(d, x, f.bottom - 0.32 * deep, x, f.bottom - 0.62 * deep, "#2d6f97")
    end
  end
  d:text(f.right + 48, f.lip + 4, "lip", {})
  d:text(f.right + 48, f.pond + 18, "pond", { fill = "#2d6f97" })
  if job.bed.drop then
    dimension(d, f.right + 106, f.lip, f.right + 106, f.pond, view:show("layer", job.bed.drop))
    d:line(f.right + 72, f.lip, f.right + 112, f.lip, { stroke = INK, stroke_width = 0.5 })
  end
end

-- Clean-out well at the far side, and the pump's pipe into it.
local function put_well(d, f)
  local x, w = f.x + 16, math.max(14, math.min(34, f.width * 0.06))
  local foot = f.bottom - 4
  d:rect(x, f.top - 26, w, foot - f.top + 26, { fill = "#f4f8fa", stroke = INK, stroke_width = 1.4 })
  d:rect(x + 1, f.lip, w - 2, foot - f.lip, { fill = WATER })
  d:rect(x - 3, f.top - 32, w + 6, 6, { fill = INK })
  d:polyline({ { 40, f.top - 16 }, { x + w / 2, f.top - 16 }, { x + w / 2, foot - 10 } },
    { stroke = "#4a6d80", stroke_width = 5, stroke_linejoin = "round" })
  arrow(d, x + w / 2, foot - 16, x + w + 24, foot - 10, "#2d6f97")
  arrow(d, 44, f.top - 28, 84, f.top - 28, "#2d6f97")
  d:text(26, f.top - 58, "from the pump", {})
  d:text(x + w / 2, f.top - 40, "clean-out well", { anchor = "start" })
end

-- Whether the water comes up out of a pipe in stone.
local function slotted(job)
  return not report.chamber(job) and job.bed.direction ~= "horizontal"
end

-- A slotted pipe along the bottom, in the lowest stone, turned up at the lip's
-- end: there a hose flushes it.
local function put_pipe(d, f, place)
  local thick = math.min(14, math.max(6, 0.4 * place.layer.thickness * f.scale))
  local y, first, last = place.y, f.x + 24, f.right - 30
  local wall = { fill = "#f4f8fa", stroke = INK, stroke_width = 1.2 }
  d:rect(first - thick / 2, f.top - 16, thick, y - f.top + 16, wall)
  d:rect(last - thick / 2, f.top - 14, thick, y - f.top + 14, wall)
  d:rect(last - thick / 2 - 3, f.top - 20, thick + 6, 6, { fill = INK })
  d:rect(first - thick / 2, y - thick / 2, last - first + thick, thick, wall)
  for x = first + 14, last - 14, 9 do
    d:line(x, y - thick / 2, x, y - thick / 8, { stroke = INK, stroke_width = 1 })
  end
  d:polyline({ { 40, f.top - 16 }, { first, f.top - 16 } }, { stroke = "#4a6d80", stroke_width = 5 })
  arrow(d, 44, f.top - 28, 84, f.top - 28, "#2d6f97")
  d:text(26, f.top - 58, "from the pump, to the slotted pipe", {})
  d:text(last + thick + 4, f.top - 10, "flushing end", {})
end

-- Labels at the right, spread so that none covers another.
local function put_labels(d, f, places, view)
  local x, step = WIDTH - RIGHT + 10, 42
  local count, at = #places, {}
  for i = count, 1, -1 do
    local wish = places[i].y
    at[i] = at[i + 1] and math.max(wish, at[i + 1] + step) or wish
  end
  local over = count > 0 and math.max(0, at[1] - (f.floor - 10)) or 0
  for i = count, 1, -1 do
    local place, y = places[i], at[i] - over
    d:polyline({ { f.right - 10, place.y }, { f.right + 130, y }, { x - 6, y } }, { stroke = INK, stroke_width = 0.6 })
    d:circle(f.right - 10, place.y, 2.2, { fill = INK })
    d:text(x, y - 2, place.layer.name or "layer " .. i, { font_weight = "bold" })
    d:text(x, y + 13, ("%s of %s"):format(view:show("layer", place.layer.thickness), report.stone(place.layer, view)))
  end
end

local function put_title(d, job, view)
  local r = job.sized
  d:text(20, 34, (job.d.name or "Pond") .. ": planted gravel bed, cross-section", { font_size = 20, font_weight = "bold" })
  d:text(20, 58, ("Plan %s x %s (%s).  Flow %s, surface loading %s.  Water held %s."):format(
    view:show("length", job.length), view:show("length", job.width), view:show("area", r.area),
    view:show("flow", job.flow), report.loading(r, view), view:show("volume", r.water or 0)))
end

local function put_foot(d, f, view)
  local name, one = view.name == "us" and "ft" or "m", view.name == "us" and tarn.units.ft or 1
  local count = 0.5             -- of the unit in a half of the bar, some 50 to 150 long
  while count * one * f.scale < 50 do count = count * 2 end
  local unit, y, x = count * one, f.height - 34, 20
  for i = 0, 1 do
    d:rect(x + i * unit * f.scale, y, unit * f.scale, 6, { fill = i == 0 and INK or "#fff", stroke = INK,
      stroke_width = 0.8 })
  end
  d:text(x, y + 20, "0", { font_size = 11 })
  d:text(x + 2 * unit * f.scale, y + 20, ("%g %s"):format(2 * count, name), { font_size = 11, anchor = "middle" })
  d:text(WIDTH - 20, f.height - 30, "To scale, but for stones under 4 units, plants, pipe, sill and pond.",
    { anchor = "end", font_size = 11, fill = "#555" })
  d:text(WIDTH - 20, f.height - 14, "Shows sizes, not structure: walls, slopes and footings by licensed people and local codes.",
    { anchor = "end", font_size = 11, fill = "#555" })
end

-- The drawing as SVG text.
function drawing.section(job, view)
  local f, roll = frame_of(job), dice(4711)
  local d = svg.drawing(WIDTH, f.height, "Cross-section of the planted gravel bed",
    ("A bed %s long and %s deep, layer by layer, with its water level, lip, inlet and %s."):format(
      view:show("length", job.length), view:show("layer", job.full_depth),
      slotted(job) and "slotted pipe" or "clean-out"))
  put_title(d, job, view)
  put_ground(d, f)
  local places = put_layers(d, job, f)
  for i = 1, math.max(2, math.floor(f.width / 70)) do
    local x = f.x + 70 + (f.width - 100) * (i - 0.5) / math.max(2, math.floor(f.width / 70))
    plant(d, x, f.top + 3, 46 + 8 * roll(), roll)
  end
  put_water(d, job, f, view)
  if slotted(job) then put_pipe(d, f, places[1]) else put_well(d, f) end
  put_labels(d, f, places, view)
  dimension(d, f.x - 46, f.top, f.x - 46, f.bottom, view:show("layer", job.full_depth))
  dimension(d, f.x - 18, f.lip, f.x - 18, f.bottom, "water " .. view:show("layer", job.depth))
  dimension(d, f.x, f.floor + 40, f.right, f.floor + 40, view:show("length", job.length))
  put_foot(d, f, view)
  return d:source()
end

return drawing

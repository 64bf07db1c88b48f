-- Figure of a log: the level as read, and the band that weather explains.
local svg = require "common.svg"

local WIDTH, HEIGHT = 760, 400
local LEFT, RIGHT, TOP, BOTTOM = 64, 740, 56, 340
local BAND, MODEL, LOGGED, GRID = "#cfe3f2", "#2b6ca3", "#b03a12", "#ddd"

local function bounds(path, depth)
  local low, high = math.huge, -math.huge
  for _, p in ipairs(path) do
    for _, level in ipairs { p.low, p.high, p.logged or p.expected } do
      low, high = math.min(low, depth(level)), math.max(high, depth(level))
    end
  end
  local margin = math.max(1e-6, (high - low) * 0.05)
  return low - margin, high + margin
end

-- Stretches of the path, each from a reading on which the ledger was set.
local function stretches(path)
  local out = {}
  for _, p in ipairs(path) do
    if p.begins then out[#out + 1] = {} end
    table.insert(out[#out], p)
  end
  return out
end

local function draw_axes(d, path, x, y, low, high, unit)
  for _, value in ipairs(svg.ticks(low, high, 6)) do
    d:line(LEFT, y(value), RIGHT, y(value), { stroke = GRID })
    d:text(LEFT - 8, y(value) + 4, ("%.6g"):format(value), { anchor = "end" })
  end
  d:text(LEFT, TOP - 10, "Below the lip, " .. unit)
  local last = -math.huge
  for _, p in ipairs(path) do
    local at = x(p.day)
    if at - last >= 95 then
      d:line(at, BOTTOM, at, BOTTOM + 5, { stroke = "#888" })
      d:text(at, BOTTOM + 20, p.date, { anchor = at < LEFT + 40 and "start" or at > RIGHT - 40 and "end" or "middle" })
      last = at
    end
  end
  d:line(LEFT, BOTTOM, RIGHT, BOTTOM, { stroke = "#888" })
end

local function draw_key(d)
  local y = HEIGHT - 14
  d:circle(LEFT + 6, y - 4, 3.5, { fill = LOGGED })
  d:text(LEFT + 16, y, "as logged")
  d:line(LEFT + 110, y - 4, LEFT + 136, y - 4, { stroke = MODEL, stroke_width = 2 })
  d:text(LEFT + 142, y, "ledger, weather alone")
  d:rect(LEFT + 300, y - 10, 26, 12, { fill = BAND })
  d:text(LEFT + 332, y, "what weather explains, 90 %, from a stretch's first reading")
end

-- figure(path, lip, view, title) -> text of an SVG; path as leak:path() gives
return function(path, lip, view, title)
  local function depth(level) return view:value("depth", lip - level) end
  local low, high = bounds(path, depth)
  local x = svg.scale(path[1].day, path[#path].day, LEFT, RIGHT)
  local y = svg.scale(low, high, TOP, BOTTOM)
  local d = svg.drawing(WIDTH, HEIGHT, title .. ": level, logged and explained by weather",
    ("Level below the lip from %s to %s: %d readings beside the band that weather explains."):format(
      path[1].date, path[#path].date, #path))
  d:text(LEFT, 24, title, { font_size = 16 })
  local pieces = stretches(path)
  for _, piece in ipairs(pieces) do
    local band, line = {}, {}
    for _, p in ipairs(piece) do
      band[#band + 1] = { x(p.day), y(depth(p.high)) }
      line[#line + 1] = { x(p.day), y(depth(p.expected)) }
    end
    for i = #piece, 1, -1 do band[#band + 1] = { x(piece[i].day), y(depth(piece[i].low)) } end
    if #piece > 1 then
      d:polygon(band, { fill = BAND })
      d:polyline(line, { stroke = MODEL, stroke_width = 2 })
    end
  end
  draw_axes(d, path, x, y, low, high, view:unit("depth"))
  for _, p in ipairs(path) do
    if p.logged then d:circle(x(p.day), y(depth(p.logged)), 3.5, { fill = LOGGED }) end
  end
  draw_key(d)
  return d:source()
end

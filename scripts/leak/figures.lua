-- SPDX-License-Identifier: MIT
-- Figures of a leak report: the level as read beside the band that weather
-- explains, and the unexplained losses with their intervals.
local chart = require "common.chart"
local svg = require "common.svg"

local figures = {}

local C = svg.colors
local WIDTH, HEIGHT = chart.WIDTH, 400
local LEFT, RIGHT, TOP, BOTTOM = chart.LEFT, 740, 56, 340
local BAND, MODEL, LOGGED = C.water_soft, C.water, C.warn

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

local function draw_key(d)
  local y = HEIGHT - 14
  d:circle(LEFT + 6, y - 4, 3.5, { fill = LOGGED })
  d:text(LEFT + 16, y, "as logged")
  d:line(LEFT + 110, y - 4, LEFT + 136, y - 4, { stroke = MODEL, stroke_width = 2 })
  d:text(LEFT + 142, y, "ledger, weather alone")
  d:rect(LEFT + 300, y - 10, 26, 12, { fill = BAND })
  d:text(LEFT + 332, y, "what weather explains, 90 %, from a stretch's first reading")
end

-- path: as leak:path() gives it
function figures.level(path, lip, view, title)
  local function depth(level) return view:value("depth", lip - level) end
  local low, high = bounds(path, depth)
  local x = svg.scale(path[1].day, path[#path].day, LEFT, RIGHT)
  local d = svg.drawing(WIDTH, HEIGHT, title .. ": level, logged and explained by weather",
    ("Level below the lip from %s to %s: %d readings beside the band that weather explains."):format(
      path[1].date, path[#path].date, #path))
  d:text(LEFT, 22, title, { font_size = 16 })
  local y = chart.axis(d, high, low, "below the lip, " .. view:unit("depth"), TOP, BOTTOM, 6, WIDTH - RIGHT)
  local dates = {}
  for i, p in ipairs(path) do dates[i] = p.date end
  chart.dates(d, dates, function(i) return x(path[i].day) end, BOTTOM)
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
  for _, p in ipairs(path) do
    if p.logged then d:circle(x(p.day), y(depth(p.logged)), 3.5, { fill = LOGGED }) end
  end
  draw_key(d)
  return d:source()
end

-- The same as numbers: depths below the lip grow downwards.
function figures.level_plot(path, lip, view)
  local days, low, high, expected, logged = {}, {}, {}, {}, {}
  local function put(day, p)
    local i = #days + 1
    local function depth(level) return level and view:value("depth", lip - level) or false end
    days[i], low[i], high[i] = day, depth(p.low), depth(p.high)
    expected[i], logged[i] = depth(p.expected), depth(p.logged)
  end
  for i, p in ipairs(path) do
    if p.begins and i > 1 then put((path[i - 1].day + p.day) / 2, {}) end     -- a gap
    put(p.day, p)
  end
  return { panels = { { label = "Level below the lip", unit = view:unit("depth"), digits = 2, down = true, days = days,
    series = {
      { name = "what weather explains, 90 %", kind = "band", color = BAND, low = low, high = high },
      { name = "ledger, weather alone", kind = "line", color = MODEL, values = expected },
      { name = "logged", kind = "points", color = LOGGED, values = logged },
    } } } }
end

-- losses: list of { name, { low, mean, high } [m3/d] }; matters: m3/d worth a search
function figures.losses(losses, matters, view)
  local rows, low, high = {}, 0, view:value("volume", matters) * 1.15
  for i, loss in ipairs(losses) do
    local e = loss[2]
    local a, b = view:value("volume", e.low), view:value("volume", e.high)
    low, high = math.min(low, a), math.max(high, b)
    rows[i] = { loss[1], a, b, view:value("volume", e.mean), view:range("volume", e.low, e.high),
      a > 0 and C.warn_soft or C.water_soft }
  end
  local room = (high - low) * 0.05
  return chart.rows { title = "Unexplained loss a day", description = "Intervals of 90 %, beside none and beside a loss that is worth a search",
    unit = view:unit("volume") .. " per day", low = low - (low < 0 and room or 0), high = high + room, label = 190, rows = rows,
    lines = { { 0, "none" }, { view:value("volume", matters), "worth a search", C.warn } } }
end

return figures

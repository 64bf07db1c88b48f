-- SPDX-License-Identifier: MIT
-- Frames of charts, drawn with common.svg: an upright axis over time or months,
-- and rows of intervals.
local svg = require "common.svg"
local text = require "common.text"

local chart = {}
local C = svg.colors

chart.WIDTH, chart.LEFT, chart.RIGHT, chart.TOP, chart.BOTTOM = 760, 62, 12, 30, 30
local SMALL = 11.5

function chart.text(d, x, y, s, anchor, color)
  d:text(x, y, s, { anchor = anchor, font_size = SMALL, fill = color })
end

local function digits_of(ticks)
  local step = #ticks > 1 and ticks[2] - ticks[1] or 1
  return step < 0.1 and 2 or step < 1 and 1 or 0
end

-- Lines and numbers of an upright axis between two heights of a drawing.
function chart.axis(d, low, high, unit, top, bottom, count, right)
  local y, ticks = svg.scale(low, high, bottom, top), svg.ticks(low, high, count or 5)
  for _, t in ipairs(ticks) do
    d:line(chart.LEFT, y(t), chart.WIDTH - (right or chart.RIGHT), y(t), { stroke = C.grid })
    chart.text(d, chart.LEFT - 6, y(t) + 4, text.number(t, digits_of(ticks)), "end", C.faint)
  end
  chart.text(d, 4, top - 14, unit, "start", C.faint)
  return y
end

-- A drawing with one axis; 'height' of the whole.
function chart.frame(title, description, low, high, unit, height)
  local d = svg.drawing(chart.WIDTH, height or 260, title, description)
  return d, chart.axis(d, low, high, unit, chart.TOP, d.height - chart.BOTTOM)
end

function chart.under(d, x, s)
  chart.text(d, x, d.height - chart.BOTTOM + 17, s, "middle", C.faint)
end

-- Key in the top right corner: list of { name, color, "box" | "line" | "dot" }.
function chart.key(d, list, y)
  local x = chart.WIDTH - chart.RIGHT
  for i = #list, 1, -1 do
    local name, color, kind = table.unpack(list[i])
    x = x - 6.2 * utf8.len(name) - 2
    chart.text(d, x, y or 14, name, "start")
    x = x - 20
    local mid = (y or 14) - 4
    if kind == "line" then d:line(x, mid, x + 15, mid, { stroke = color, stroke_width = 2.5 })
    elseif kind == "dot" then d:circle(x + 10, mid, 3.5, { fill = color })
    else d:rect(x, mid - 5, 15, 10, { fill = color }) end
    x = x - 12
  end
end

-- Dates under a time axis: 'at' gives the place of the i-th of 'dates'.
function chart.dates(d, dates, at, y)
  local last, long = -math.huge, #dates > 1 and dates[1]:sub(1, 4) ~= dates[#dates]:sub(1, 4)
  local months = long and #dates > 1000
  for i, date in ipairs(dates) do
    local x = at(i)
    local wanted = months and date:sub(6, 7) == "01" or not months
    if wanted and x - last >= 82 and x <= chart.WIDTH - 30 then
      d:line(x, y, x, y + 4, { stroke = C.faint })
      chart.text(d, x, y + 17, months and date:sub(1, 4) or date, x < chart.LEFT + 30 and "start" or "middle", C.faint)
      last = x
    end
  end
end

--[[
  Rows of intervals on one axis, for a comparison by eye:

      chart.rows { title =, description =, unit =, low =, high =, label = room for names,
        rows = { { name, low, high, mark, shown, color } },
        lines = { { value, name, color } } }
]]
function chart.rows(what)
  local label, right, step = what.label or 220, 120, 30
  local height = #what.rows * step + 66
  local d = svg.drawing(chart.WIDTH, height, what.title, what.description)
  local x = svg.scale(what.low, what.high, label, chart.WIDTH - right)
  local ticks = svg.ticks(what.low, what.high, 6)
  for _, t in ipairs(ticks) do
    d:line(x(t), 24, x(t), height - 38, { stroke = C.grid })
    chart.text(d, x(t), height - 22, text.number(t, digits_of(ticks)), "middle", C.faint)
  end
  chart.text(d, (x(what.low) + x(what.high)) / 2, height - 6, what.unit, "middle", C.faint)
  for i, row in ipairs(what.rows) do
    local name, low, high, _, shown, color = table.unpack(row, 1, 6)
    local y = 28 + (i - 0.5) * step
    d:text(label - 12, y + 4, name, { anchor = "end" })
    if low then
      d:rect(math.min(x(low), x(high)), y - 8, math.max(1, math.abs(x(high) - x(low))), 16, { fill = color or C.water_soft })
    end
    d:text(chart.WIDTH - right + 12, y + 4, shown, {})
  end
  for _, line in ipairs(what.lines or {}) do
    d:line(x(line[1]), 20, x(line[1]), height - 38, { stroke = line[3] or C.ink, stroke_width = 1.5,
      stroke_dasharray = line[3] and "5 4" or nil })
    chart.text(d, x(line[1]), 14, line[2], "middle", line[3])
  end
  for i, row in ipairs(what.rows) do
    if row[4] then d:circle(x(row[4]), 28 + (i - 0.5) * step, 5, { fill = C.water, stroke = C.paper, stroke_width = 1.5 }) end
  end
  return d:source()
end

return chart

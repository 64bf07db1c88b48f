-- Pictures of the what-if report, as SVG (common.svg).
local svg = require "common.svg"

local figures = {}

local WIDTH, LABEL, ROW, RIGHT = 760, 230, 26, 110
local GRID, WATER, BAND = "#d8ddd5", "#2f6f8f", "#b9d3de"

local function frame(title, rows, low, high)
  local d = svg.drawing(WIDTH, rows * ROW + 40, title)
  local x = svg.scale(low, high, LABEL, WIDTH - RIGHT)
  for _, t in ipairs(svg.ticks(low, high, 5)) do
    d:line(x(t), 8, x(t), rows * ROW + 12, { stroke = GRID })
    d:text(x(t), rows * ROW + 28, ("%.0f"):format(t), { anchor = "middle", font_size = 11 })
  end
  return d, x
end

local function row(d, i, name, shown)
  local y = (i - 1) * ROW + 12
  d:text(LABEL - 8, y + 15, name, { anchor = "end", font_size = 12 })
  d:text(WIDTH - RIGHT + 8, y + 15, shown, { font_size = 12 })
  return y
end

-- Two bars a scenario: middle year, and as far as a dry one.
function figures.scenarios(job, view)
  local most = 1
  local function value(x) return view:value("volume", x or 0) end
  for _, s in ipairs(job.scenarios) do most = math.max(most, value(s.year_p90), value(s.year_p50 or s.topup)) end
  local d, x = frame("Top-up by scenario, " .. view:unit("volume"), #job.scenarios, 0, most)
  for i, s in ipairs(job.scenarios) do
    local middle = s.year_p50 or s.topup
    local y = row(d, i, s.name, view:cell("volume", middle))
    if s.year_p90 then d:rect(x(0), y + 3, x(value(s.year_p90)) - x(0), ROW - 8, { fill = BAND }) end
    d:rect(x(0), y + 3, x(value(middle)) - x(0), ROW - 8, { fill = WATER })
  end
  return d:source()
end

-- A tornado: from the result at an input's low end to that at its high end.
function figures.swings(job, view)
  if not job.swings then return "" end
  local function value(x) return view:value("volume", x / job.years) end
  local base = value(job.swings[1].base)
  local low, high = base, base
  for _, s in ipairs(job.swings) do
    low = math.min(low, value(s.low), value(s.high))
    high = math.max(high, value(s.low), value(s.high))
  end
  if not (high > low) then high = low + 1 end
  local d, x = frame("Top-up a year, " .. view:unit("volume") .. ", by input", #job.swings, low, high)
  for i, s in ipairs(job.swings) do
    local y = row(d, i, s.input.name or s.input.field, view:cell("volume", s.swing / job.years))
    local a, b = x(value(s.low)), x(value(s.high))
    d:rect(math.min(a, b), y + 3, math.abs(b - a), ROW - 8, { fill = WATER })
  end
  d:line(x(base), 8, x(base), #job.swings * ROW + 12, { stroke = "#23302b" })
  return d:source()
end

return figures

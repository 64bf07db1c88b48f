-- SPDX-License-Identifier: MIT
-- Pictures of the what-if report, as SVG (common.chart).
local chart = require "common.chart"

local figures = {}

-- From nothing to the top-up of a dry year; the dot is the middle year.
function figures.scenarios(job, view)
  local most, rows = 1, {}
  local function value(x) return view:value("volume", x) end
  for i, s in ipairs(job.scenarios) do
    local middle = s.year_p50 or s.topup
    local top = value(s.year_p90 or middle)
    most = math.max(most, top)
    rows[i] = { s.name, 0, top, value(middle), view:show("volume", middle) }
  end
  return chart.rows { title = "Top-up by scenario", description = "Bars to the top-up of a dry year, dots at that of a middle one",
    unit = view:unit("volume") .. " a year", low = 0, high = most, label = 230, rows = rows,
    lines = { { rows[1][4], rows[1][1] } } }
end

-- A tornado: from the result at an input's low end to that at its high end.
function figures.swings(job, view)
  local function value(x) return view:value("volume", x / job.years) end
  local base, rows = value(job.swings[1].base), {}
  local low, high = base, base
  for i, s in ipairs(job.swings) do
    low, high = math.min(low, value(s.low), value(s.high)), math.max(high, value(s.low), value(s.high))
    rows[i] = { s.input.name or s.input.field, value(s.low), value(s.high), nil, view:show("volume", s.swing / job.years) }
  end
  if not (high > low) then high = low + 1 end
  return chart.rows { title = "Top-up a year by input", description = "Bars from the low to the high end of each input, about the pond as it is",
    unit = view:unit("volume") .. " a year", low = low, high = high, label = 230, rows = rows, lines = { { base, "as it is" } } }
end

return figures

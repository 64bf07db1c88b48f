-- SPDX-License-Identifier: MIT
-- The pictures of the top-up report, as SVG (common.svg).
local chart = require "common.chart"
local losses = require "common.losses"
local svg = require "common.svg"

local figures = {}

local C = svg.colors
local WIDTH, LEFT, RIGHT = chart.WIDTH, chart.LEFT, chart.RIGHT
local MONTHS = { "J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D" }
local MANY = 220              -- weeks that can be told apart in a drawing
local DAYS = 30.4             -- a month as it is drawn
local BESIDE = 50             -- room for the levels' names, right of the figure over time

-- ---- the weeks of a year ------------------------------------------------------

function figures.typical_weeks(job, view)
  local weeks, most = {}, 0
  for _, week in ipairs((job.forecast or job.season).weeks) do
    weeks[week.week], most = week.topup, math.max(most, week.topup.p90)
  end
  local d, y = chart.frame("Top-up by week of the year", ("P10, middle and P90 of 52 weeks, at most %s")
    :format(view:show("volume", most)), 0, math.max(view:value("volume", most), 1), view:unit("volume") .. " per week")
  local step = (WIDTH - LEFT - RIGHT) / 52
  local function at(si) return y(view:value("volume", si)) end
  for n = 1, 52 do
    local topup, x = weeks[n], LEFT + (n - 1) * step
    if topup then
      d:rect(x + step * 0.1, at(topup.p90), step * 0.8, math.max(0, at(topup.p10) - at(topup.p90)), { fill = C.water_soft })
      d:line(x + step * 0.1, at(topup.p50), x + step * 0.9, at(topup.p50), { stroke = C.water, stroke_width = 3 })
    end
    if n % 4 == 1 then chart.under(d, x + step / 2, "W" .. n) end
  end
  chart.key(d, { { "P10 to P90", C.water_soft }, { "middle", C.water, "line" } })
  return d:source()
end

-- ---- over time ------------------------------------------------------------------

-- The days of the weather in their order: false for one that is left out; and the place of each date.
local function calendar(job)
  local out, place, at = {}, {}, 1
  for i, date in ipairs(job.weather:dates()) do
    local day = job.days[at]
    out[i], place[date] = day and day.date == date and day, i
    if out[i] then at = at + 1 end
  end
  return out, place
end

-- Least and greatest of each bundle of days, so that decades stay a small file; nothing of days that are left out.
local function bundled(days, most)
  local size, out = math.max(1, math.ceil(#days / most)), {}
  for i = 1, #days, size do
    local low, high = math.huge, -math.huge
    for k = i, math.min(i + size - 1, #days) do
      if days[k] then low, high = math.min(low, days[k].level), math.max(high, days[k].level) end
    end
    out[#out + 1] = low <= high and { low = low, high = high }
  end
  return out
end

local function marks(job)
  local f, list = job.facts, {}
  for _, m in ipairs { { "overflow", f.overflow_level, C.ink }, { "target", f.target, C.plant },
    { "trigger", f.trigger, C.plant }, { "intake", f.intake, C.warn } } do
    if m[2] then list[#list + 1] = { name = m[1], level = m[2], color = m[3] } end
  end
  return list
end

-- Of the levels in the chart: those that water reached or came near.
local function bounds(job)
  local f = job.facts
  local low, high = f.trigger or f.overflow_level, f.overflow_level
  for _, day in ipairs(job.days) do low, high = math.min(low, day.level), math.max(high, day.level) end
  if f.intake and f.intake > low - 0.1 then low = math.min(low, f.intake) end
  local room = math.max((high - low) * 0.08, 0.005)
  return low - room, high + room
end

-- "by week", or by month where there are too many weeks to draw.
function figures.step(job)
  return #job.weeks > MANY and "by month" or "by week"
end

local function draw_level(d, job, view, top, bottom)
  local rows, low, high = bundled(calendar(job), 700), bounds(job)
  local function value(m) return view:value("length", m) end
  local y = chart.axis(d, value(low), value(high), view:unit("length") .. " above the floor", top, bottom, 5, BESIDE)
  local x = svg.scale(1, math.max(2, #rows), LEFT + 4, WIDTH - BESIDE - 4)
  local line = {}
  local function finish()
    if #line > 0 then d:polyline(line, { stroke = C.water, stroke_width = 1.3 }) end
    line = {}
  end
  for i, row in ipairs(rows) do
    if row then
      line[#line + 1] = { x(i), y(value(row.high)) }
      if row.low < row.high then line[#line + 1] = { x(i), y(value(row.low)) } end
    else
      finish()
    end
  end
  finish()
  local used = -math.huge
  for _, mark in ipairs(marks(job)) do
    if mark.level >= low then
      local at = y(value(mark.level))
      d:line(LEFT, at, WIDTH - BESIDE, at, { stroke = mark.color, stroke_dasharray = "5 4" })
      used = math.max(at + 4, used + 12)
      chart.text(d, WIDTH - BESIDE + 5, used, mark.name, "start", mark.color)
    end
  end
end

local function draw_topup(d, job, view, top, bottom)
  local periods = #job.weeks > MANY and job.months or job.weeks
  local most = 1e-9
  for _, p in ipairs(periods) do most = math.max(most, view:value("volume", p.topup)) end
  local y = chart.axis(d, 0, most, view:unit("volume") .. " of top-up " .. figures.step(job), top, bottom, 3, BESIDE)
  local days, place = calendar(job)
  local step = (WIDTH - LEFT - BESIDE - 8) / #days
  for _, p in ipairs(periods) do
    local at, width = LEFT + 4 + (place[p.first] - 1) * step, (place[p.last] - place[p.first] + 1) * step
    d:rect(at + width * 0.1, y(view:value("volume", p.topup)), math.max(0.5, width * 0.8),
      math.max(0, y(0) - y(view:value("volume", p.topup))), { fill = C.water })
  end
end

-- The level day by day, and under it what was added.
function figures.time(job, view)
  local days = job.days
  local d = svg.drawing(WIDTH, 400, "Level and top-up over time", ("From %s to %s; the overflow level is %s")
    :format(days[1].date, days[#days].date, view:show("length", job.facts.overflow_level)))
  draw_level(d, job, view, 30, 240)
  draw_topup(d, job, view, 290, 370)
  local dates = job.weather:dates()
  chart.dates(d, dates, svg.scale(1, math.max(2, #dates), LEFT + 4, WIDTH - BESIDE - 4), 370)
  return d:source()
end

-- The same as numbers: level by day, top-up by week.
function figures.time_plot(job, view)
  local level, topup, dates, lines = {}, {}, {}, {}
  for i, day in ipairs((calendar(job))) do level[i] = day and view:value("length", day.level) or 0 / 0 end
  for i, week in ipairs(job.weeks) do topup[i], dates[i] = view:value("volume", week.topup), week.first end
  for i, m in ipairs(marks(job)) do lines[i] = { name = m.name, value = view:value("length", m.level), color = m.color } end
  return { panels = {
    { label = "Level above the floor", unit = view:unit("length"), digits = 2, first = job.days[1].date,
      series = { { name = "level", kind = "line", color = C.water, values = level } }, marks = lines },
    { label = "Top-up of the week", unit = view:unit("volume"), digits = 0, dates = dates, step = 7,
      series = { { name = "top-up", kind = "bars", color = C.water, values = topup } } },
  } }
end

-- ---- the months -------------------------------------------------------------------

-- What comes in above the line, what goes out below, a month's mean each.
local IN = { { "rain", "rain", C.rain }, { "topup", "top-up", C.water } }
local OUT = { { "evaporation", "open water", C.sun }, { "beside", "bed, stream, other", C.earth },
  { "overflow", "overflow", C.stone } }

-- Of a usual day in each month.
local function month_means(job)
  local means = {}
  for _, m in ipairs(job.season.months) do
    local a = m.daily
    means[m.month] = { rain = a.rain + a.runoff, topup = a.topup + a.tank, evaporation = a.evaporation,
      beside = losses.beside(a), overflow = a.overflow }
  end
  return means
end

local function stack(d, x, width, s, sign, parts, value, y)
  local from = 0
  for _, part in ipairs(parts) do
    local to = from + sign * value(s[part[1]] * DAYS)
    d:rect(x, math.min(y(from), y(to)), width, math.abs(y(to) - y(from)), { fill = part[3] })
    from = to
  end
end

function figures.balance(job, view)
  local means, up, down = month_means(job), 0, 0
  for _, s in pairs(means) do
    up = math.max(up, (s.rain + s.topup) * DAYS)
    down = math.max(down, (s.evaporation + s.beside + s.overflow) * DAYS)
  end
  local function value(si) return view:value("volume", si) end
  local d, y = chart.frame("Water in and out, by month", "Stacked bars: above the line what comes in, below what goes out",
    -value(down), value(up), view:unit("volume") .. " per month", 300)
  local step = (WIDTH - LEFT - RIGHT) / 12
  for month = 1, 12 do
    local s, x = means[month], LEFT + (month - 1) * step
    if s then
      stack(d, x + step * 0.15, step * 0.7, s, 1, IN, value, y)
      stack(d, x + step * 0.15, step * 0.7, s, -1, OUT, value, y)
    end
    chart.under(d, x + step / 2, MONTHS[month])
  end
  d:line(LEFT, y(0), WIDTH - RIGHT, y(0), { stroke = C.ink })
  local key = {}
  for _, parts in ipairs { IN, OUT } do
    for _, part in ipairs(parts) do key[#key + 1] = { part[2], part[3] } end
  end
  chart.key(d, key)
  return d:source()
end

return figures

-- The pictures of the top-up report, as SVG (common.svg).
local stats = require "common.stats"
local svg = require "common.svg"
local text = require "common.text"

local figures = {}

local WIDTH, HEIGHT = 760, 260
local LEFT, RIGHT, TOP, BOTTOM = 62, 12, 26, 34
local INK, GRID, WATER, BAND = "#23302b", "#d8ddd5", "#2f6f8f", "#b9d3de"
local MONTHS = { "J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D" }

-- A frame with a vertical axis from low to high in 'unit'; returns the drawing
-- and the scale.
local function frame(title, description, low, high, unit)
  local d = svg.drawing(WIDTH, HEIGHT, title, description)
  local y = svg.scale(low, high, HEIGHT - BOTTOM, TOP)
  local ticks = svg.ticks(low, high, 5)
  local digits = #ticks > 1 and ticks[2] - ticks[1] < 1 and (ticks[2] - ticks[1] < 0.1 and 2 or 1) or 0
  for _, t in ipairs(ticks) do
    d:line(LEFT, y(t), WIDTH - RIGHT, y(t), { stroke = GRID })
    d:text(LEFT - 6, y(t) + 4, text.number(t, digits), { anchor = "end", font_size = 11 })
  end
  d:text(LEFT - 6, 14, unit, { anchor = "end", font_size = 11 })
  return d, y
end

local function label(d, x, s)
  d:text(x, HEIGHT - BOTTOM + 16, s, { anchor = "middle", font_size = 11 })
end

-- P10, P50, P90 by week of the year, or the weeks themselves where they are few.
local function week_rows(job)
  if #job.weeks <= 60 then
    local rows = {}
    for i, week in ipairs(job.weeks) do
      rows[i] = { mid = week.topup, name = i % 4 == 1 and week.first:sub(6) or nil }
    end
    return rows
  end
  local by_week, rows = {}, {}
  for _, week in ipairs(job.weeks) do
    if week.complete and week.week <= 52 then
      by_week[week.week] = by_week[week.week] or {}
      table.insert(by_week[week.week], week.topup)
    end
  end
  for n = 1, 52 do
    local list = by_week[n] or { 0 }
    rows[n] = { mid = stats.percentile(list, 50), low = stats.percentile(list, 10),
      high = stats.percentile(list, 90), name = n % 4 == 1 and "W" .. n or nil }
  end
  return rows
end

function figures.weeks(job, view)
  local rows, most = week_rows(job), 0
  for _, row in ipairs(rows) do most = math.max(most, row.high or row.mid) end
  local unit = view:unit("volume")
  local d, y = frame("Top-up by week", ("Bars of %d weeks, at most %s"):format(#rows, view:show("volume", most)),
    0, math.max(view:value("volume", most), 1), unit)
  local step = (WIDTH - LEFT - RIGHT) / #rows
  local function at(si) return y(view:value("volume", si)) end
  for i, row in ipairs(rows) do
    local x = LEFT + (i - 1) * step
    if row.high then
      d:rect(x + step * 0.1, at(row.high), step * 0.8, math.max(0, at(row.low) - at(row.high)), { fill = BAND })
      d:line(x + step * 0.1, at(row.mid), x + step * 0.9, at(row.mid), { stroke = WATER, stroke_width = 3 })
    else
      d:rect(x + step * 0.1, at(row.mid), step * 0.8, math.max(0, y(0) - at(row.mid)), { fill = WATER })
    end
    if row.name then label(d, x + step / 2, row.name) end
  end
  if rows[1] and rows[1].high then
    d:rect(WIDTH - 210, 6, 14, 10, { fill = BAND })
    d:text(WIDTH - 192, 15, "P10 to P90", { font_size = 11 })
    d:line(WIDTH - 116, 11, WIDTH - 102, 11, { stroke = WATER, stroke_width = 3 })
    d:text(WIDTH - 98, 15, "middle year", { font_size = 11 })
  end
  return d:source()
end

-- Least and greatest of each bundle of days, so that decades stay a small file.
local function bundled(days, most)
  local size, out = math.max(1, math.ceil(#days / most)), {}
  for i = 1, #days, size do
    local low, high = math.huge, -math.huge
    for k = i, math.min(i + size - 1, #days) do
      low, high = math.min(low, days[k].level), math.max(high, days[k].level)
    end
    out[#out + 1] = { low = low, high = high, date = days[i].date }
  end
  return out
end

function figures.level(job, view)
  local rows, f = bundled(job.days, 700), job.facts
  local low, high = f.lip, f.lip
  for _, row in ipairs(rows) do low = math.min(low, row.low) end
  if f.intake and f.intake > low - 0.1 then low = math.min(low, f.intake) end
  local unit = view:unit("length")
  local function value(m) return view:value("length", m) end
  local room = math.max((high - low) * 0.08, 0.005)
  local d, y = frame("Level of the pond",
    ("From %s to %s; lip at %s"):format(rows[1].date, rows[#rows].date, view:show("length", f.lip)),
    value(low - room), value(high + room), unit)
  local x = svg.scale(1, math.max(2, #rows), LEFT + 4, WIDTH - RIGHT - 4)
  for _, mark in ipairs { { "lip", f.lip }, { "trigger", f.trigger }, { "intake", f.intake } } do
    if mark[2] and mark[2] >= low - room then
      d:line(LEFT, y(value(mark[2])), WIDTH - RIGHT, y(value(mark[2])), { stroke = INK, stroke_dasharray = "5 4" })
      d:text(WIDTH - RIGHT - 2, y(value(mark[2])) - 3, mark[1], { anchor = "end", font_size = 11 })
    end
  end
  local line = {}
  for i, row in ipairs(rows) do
    line[#line + 1] = { x(i), y(value(row.high)) }
    if row.low < row.high then line[#line + 1] = { x(i), y(value(row.low)) } end
  end
  d:polyline(line, { stroke = WATER, stroke_width = 1.3 })
  for i = 1, #rows, math.max(1, math.ceil(#rows / 8)) do label(d, x(i), rows[i].date:sub(1, 7)) end
  return d:source()
end

-- What comes in above the line, what goes out below, a month's mean each.
local IN = { { "rain", "rain", "#8fb7c9" }, { "topup", "top-up", "#2f6f8f" } }
local OUT = { { "evaporation", "open water", "#d9a441" }, { "beside", "bed, stream, other", "#a8823a" },
  { "overflow", "overflow", "#9aa59d" } }

local function month_means(job)
  local sums = {}
  for _, m in ipairs(job.months) do
    local s = sums[m.month] or { n = 0, rain = 0, topup = 0, evaporation = 0, beside = 0, overflow = 0 }
    s.n = s.n + m.days
    s.rain = s.rain + m.rain + m.runoff
    s.topup = s.topup + m.topup + m.tank
    s.evaporation = s.evaporation + m.evaporation
    s.beside = s.beside + m.bed + m.stream + m.splash + m.seepage + m.withdrawal
    s.overflow = s.overflow + m.overflow
    sums[m.month] = s
  end
  return sums
end

function figures.balance(job, view)
  local sums, up, down = month_means(job), 0, 0
  for _, s in pairs(sums) do
    local share = 30.4 / s.n
    up = math.max(up, (s.rain + s.topup) * share)
    down = math.max(down, (s.evaporation + s.beside + s.overflow) * share)
  end
  local function value(si) return view:value("volume", si) end
  local d, y = frame("Water in and out, by month", "Stacked bars: above the line what comes in, below what goes out",
    -value(down), value(up), view:unit("volume") .. " a month")
  local step = (WIDTH - LEFT - RIGHT) / 12
  for month = 1, 12 do
    local s, x = sums[month], LEFT + (month - 1) * step
    if s then
      for sign, parts in pairs { [1] = IN, [-1] = OUT } do
        local from = 0
        for _, part in ipairs(parts) do
          local to = from + sign * value(s[part[1]] * 30.4 / s.n)
          d:rect(x + step * 0.15, math.min(y(from), y(to)), step * 0.7, math.abs(y(to) - y(from)), { fill = part[3] })
          from = to
        end
      end
    end
    label(d, x + step / 2, MONTHS[month])
  end
  d:line(LEFT, y(0), WIDTH - RIGHT, y(0), { stroke = INK })
  local x = LEFT + 70
  for _, parts in ipairs { IN, OUT } do
    for _, part in ipairs(parts) do
      d:rect(x, 5, 12, 10, { fill = part[3] })
      d:text(x + 16, 14, part[2], { font_size = 11 })
      x = x + 32 + 6 * #part[2]
    end
  end
  return d:source()
end

return figures

-- SPDX-License-Identifier: MIT
-- Sheet: the chart of levels, a cross-section and the year, as SVG.
local chart = require "common.chart"
local svg = require "common.svg"
local text = require "common.text"
local names = require("sheet.water").NAMES

local drawings = {}

local WATER, GROUND, LINER, STONE = "#cfe5f2", "#e4d9c4", "#3b3b3b", "#b9b4a8"
local COLOR = { edge = "#5b4a2f", storm = "#b3261e", overflow = "#b3261e", target = "#1b6e3c", trigger = "#1b6e3c",
  intake = "#a65b00", pump = "#a65b00", sill = "#777" }

-- Heights for labels, none nearer than 'gap' to the one above it, pushed down,
-- and up again from 'bottom'.
local function spread(wanted, gap, bottom)
  local y = table.move(wanted, 1, #wanted, 1, {})
  for i = 2, #y do y[i] = math.max(y[i], y[i - 1] + gap) end
  if #y > 0 and y[#y] > bottom then y[#y] = bottom end
  for i = #y - 1, 1, -1 do y[i] = math.min(y[i], y[i + 1] - gap) end
  return y
end

-- The levels drawn over each other: lines at their heights, labels spread out.
-- The water's top third holds most of them, so the scale is broken: what lies
-- under the lowest working level is squeezed.
function drawings.levels(job, view)
  local levels = job.chart
  local d = svg.drawing(760, 460, job.name .. ": levels", "Levels of the pond from the edge down, with their heights and volumes.")
  local top, bottom, left, right = 60, 420, 40, 250
  local basin = job.pond:basin()
  local edge, low = basin:top(), basin:floor()
  local lowest = low
  for _, l in ipairs(levels) do
    if l.name ~= "floor" then lowest = l.level end
  end
  local knee = bottom - (lowest > low and 50 or 0)
  local upper, lower = svg.scale(edge, lowest, top, knee), svg.scale(lowest, low, knee, bottom)
  local function y(level) return level >= lowest and upper(level) or lower(level) end
  d:text(left, 28, job.name .. ": levels", { font_size = 16, font_weight = "bold" })
  d:text(left, 46, ("below the edge / above the floor, %s; basin below the level, %s"):format(view:unit("depth"), view:unit("volume")),
    { fill = "#555" })
  d:rect(left, top, right - left, bottom - top, { fill = GROUND })
  d:rect(left + 12, y(job.facts.overflow_level), right - left - 24, bottom - y(job.facts.overflow_level), { fill = WATER })
  if job.facts.target and job.facts.trigger then
    d:rect(left + 12, y(job.facts.target), right - left - 24, y(job.facts.trigger) - y(job.facts.target), { fill = "#8cc3dd" })
    d:text((left + right) / 2, (y(job.facts.target) + y(job.facts.trigger)) / 2 + 4, "normal band", { anchor = "middle" })
  end
  if lowest > low then
    d:text((left + right) / 2, knee + 28, "(squeezed below this)", { anchor = "middle", fill = "#555", font_size = 11 })
  end
  local wanted = {}
  for i, l in ipairs(levels) do wanted[i] = y(l.level) end
  local label = spread(wanted, 27, bottom + 4)
  for i, l in ipairs(levels) do
    local color = COLOR[l.name] or "#333"
    local dash = (l.name == "stop" or l.name == "start" or l.name == "full_on" or l.name == "storm") and "5 3" or nil
    d:line(left, wanted[i], right, wanted[i], { stroke = color, stroke_width = 1.5, stroke_dasharray = dash })
    d:polyline({ { right, wanted[i] }, { right + 24, label[i] }, { right + 30, label[i] } }, { stroke = color, stroke_width = 0.8 })
    d:text(right + 36, label[i] + 4, names[l.name], { fill = color })
    d:text(580, label[i] + 4, ("%s / %s"):format(view:cell("depth", basin:top() - l.level), view:cell("depth", l.level)),
      { anchor = "end" })
    d:text(720, label[i] + 4, view:show("volume", l.volume), { anchor = "end" })
  end
  d:text(left, 450, job.note, { font_size = 10, fill = "#555" })
  return d:source()
end

-- Corner points of the profile, from the left edge over the floor to the right.
local function outline(profile, key, x, y)
  local list = {}
  for _, s in ipairs(profile) do list[#list + 1] = { x(-s[key] / 2), y(s.level) } end
  for i = #profile, 1, -1 do list[#list + 1] = { x(profile[i][key] / 2), y(profile[i].level) } end
  return list
end

-- Half the profile's size at a level.
local function half_at(profile, key, level)
  for i = 2, #profile do
    local a, b = profile[i - 1], profile[i]
    if level <= a.level and level >= b.level and a.level > b.level then
      return (b[key] + (a[key] - b[key]) * (level - b.level) / (a.level - b.level)) / 2
    end
  end
  return profile[1][key] / 2
end

-- Basin along its length; above it, not to scale, the way of the water.
function drawings.section(job, view)
  local profile, facts, basin = job.profile, job.facts, job.pond:basin()
  local length, depth = profile[1].length, basin:top() - basin:floor()
  local d = svg.drawing(760, 430, job.name .. ": cross-section", "The basin along its length with water, shelves and liner; bed and falls beside it, not to scale.")
  local room_x, room_y = 470, 240
  local scale = math.min(room_x / length, room_y / depth)
  local mid, base = 490, 370
  local function x(m) return mid + m * scale end
  local function y(level) return base - (level - basin:floor()) * scale end
  local edge_y, lip_y = y(basin:top()), y(facts.overflow_level)
  d:text(30, 28, job.name .. ": section along the length", { font_size = 16, font_weight = "bold" })
  d:text(30, 46, "basin to scale; bed, stream and falls only as a sketch", { fill = "#555" })
  d:rect(20, edge_y, 720, 408 - edge_y, { fill = GROUND })
  d:polygon(outline(profile, "length", x, y), { fill = "#fff" })
  local half, water = half_at(profile, "length", facts.overflow_level), { { level = facts.overflow_level } }
  water[1].length = 2 * half
  for _, s in ipairs(profile) do
    if s.level <= facts.overflow_level then water[#water + 1] = s end
  end
  d:polygon(outline(water, "length", x, y), { fill = WATER })
  d:polyline(outline(profile, "length", x, y), { stroke = LINER, stroke_width = 2.5 })
  d:line(x(-half), lip_y, x(half), lip_y, { stroke = "#2b6f94", stroke_width = 1 })
  d:text(x(half * 0.35), lip_y - 6, "overflow lip", { fill = "#b3261e", anchor = "middle" })
  if facts.target then
    local t = half_at(profile, "length", facts.target)
    d:line(x(-t), y(facts.target), x(t), y(facts.target), { stroke = "#1b6e3c", stroke_dasharray = "5 3" })
  end
  if facts.intake then
    local t = half_at(profile, "length", facts.intake)
    d:line(x(-t), y(facts.intake), x(t), y(facts.intake), { stroke = "#a65b00", stroke_dasharray = "5 3" })
    d:text(x(0), y(facts.intake) + 14, "intake minimum", { fill = "#a65b00", anchor = "middle" })
  end
  drawings.falls(d, job, view, x(-half), lip_y, edge_y)
  local floor_y = y(basin:floor())
  d:line(x(-length / 2), base + 18, x(length / 2), base + 18, { stroke = "#333" })
  for _, end_x in ipairs { x(-length / 2), x(length / 2) } do d:line(end_x, base + 13, end_x, base + 23, { stroke = "#333" }) end
  d:text(mid, base + 36, ("%s at the edge, %s wide"):format(view:show("length", length), view:show("length", profile[1].width)),
    { anchor = "middle" })
  d:text(mid, floor_y - 6, ("%s deep, %s of water at the lip"):format(view:show("length", depth), view:show("volume", job.water)),
    { anchor = "middle" })
  d:text(30, 423, job.note, { font_size = 10, fill = "#555" })
  return d:source()
end

-- Bed and falls to the left of the water, as a sketch: a box of stones, and a
-- step for each fall.
function drawings.falls(d, job, view, shore, lip_y, edge_y)
  local falls = job.description.falls or {}
  local has_bed = job.facts.bed_area > 0
  if not has_bed and #falls == 0 then return end
  local height = math.min(110, edge_y - 70)
  local steps = math.max(1, #falls)
  local bed_right = has_bed and 120 or 40
  local path, y = { { bed_right, edge_y - height } }, edge_y - height
  for i = 1, steps do
    local at = bed_right + (shore + 3 - bed_right) * (steps > 1 and (i - 1) / (steps - 1) or 1)
    path[#path + 1] = { at, y }
    y = edge_y - height + (lip_y - edge_y + height) * i / steps
    path[#path + 1] = { at + 4, y }
  end
  d:polyline(path, { stroke = "#2b6f94", stroke_width = 4, stroke_linejoin = "round" })
  if has_bed then
    d:rect(30, edge_y - height, 90, height, { fill = STONE, stroke = LINER })
    d:text(75, edge_y - height / 2, "bed", { anchor = "middle" })
    d:text(75, edge_y - height / 2 + 16, view:show("area", job.facts.bed_area), { anchor = "middle" })
    for i = 0, 4 do
      d:line(42 + 16 * i, edge_y - height, 38 + 16 * i, edge_y - height - 18, { stroke = "#3f7d3a", stroke_width = 2 })
    end
  end
  if job.works.flow then
    d:text(bed_right + 14, edge_y - height - 8, "pump: " .. view:show("flow", job.works.flow), { fill = "#2b6f94" })
  end
end

-- A week's drop by month: P10 to P90, P50, and where to look and act.
function drawings.year(job, view)
  local C, months, most = svg.colors, {}, 0
  local function value(mm) return view:value("depth", mm * tarn.units.mm) end
  for _, m in ipairs(job.forecast.months) do
    months[m.month], most = m, math.max(most, value(m.act_mm))
  end
  local d, y = chart.frame("A week's drop by month", "P10 to P90 of a week's drop in each month, and the drops from which to look and to act",
    0, math.max(most, 1e-6), view:unit("depth") .. " per week")
  local step = (chart.WIDTH - chart.LEFT - chart.RIGHT) / 12
  for month = 1, 12 do
    local m, x = months[month], chart.LEFT + (month - 1) * step
    local function line(at, color, width)
      d:line(x + 0.15 * step, y(value(at)), x + 0.85 * step, y(value(at)), { stroke = color, stroke_width = width })
    end
    chart.under(d, x + step / 2, text.months[month])
    if m then
      d:rect(x + 0.2 * step, y(value(m.drop_mm.p90)), 0.6 * step, y(value(m.drop_mm.p10)) - y(value(m.drop_mm.p90)), { fill = C.water_soft })
      line(m.drop_mm.p50, C.water, 3)
      line(m.look_mm, C.sun, 2)
      line(m.act_mm, C.warn, 2)
    end
  end
  chart.key(d, { { "P10 to P90", C.water_soft }, { "P50", C.water, "line" }, { "look above", C.sun, "line" },
    { "act above", C.warn, "line" } })
  return d:source()
end

return drawings

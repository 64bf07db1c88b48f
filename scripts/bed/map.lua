-- SPDX-License-Identifier: MIT
-- The trade-off as a map: area against depth at the flow taken, what does its
-- job, what is refused and why.
local plan = require "bed.plan"
local choices = require "bed.choices"
local chart = require "common.chart"
local svg = require "common.svg"

local C = svg.colors
local HEIGHT, TOP, BOTTOM, RIGHT = 400, 44, 52, 14

-- What a cell is: a letter of a refusal, "!" doubtful, "" good.
local function kind_of(cell)
  for _, name in ipairs(tarn.bed.refusals()) do
    if cell.flags[name] then return choices.letter(name) end
  end
  return cell.flags.area_overload and "!" or ""
end

-- Runs of like cells up the depth as one rectangle, and a line where the kind
-- changes; the cells of each kind.
local function draw_cells(d, map, place)
  local depths, cells = #map.depths, {}
  local function kind_at(i, k) return kind_of(map.cells[(i - 1) * depths + k]) end
  local edge = { stroke = C.paper, stroke_width = 2 }
  for i = 1, #map.areas do
    local k = 1
    while k <= depths do
      local kind, last = kind_at(i, k), k
      while last < depths and kind_at(i, last + 1) == kind do last = last + 1 end
      local x, y, right, foot = place.x(i - 0.5), place.y(last + 0.5), place.x(i + 0.5), place.y(k - 0.5)
      d:rect(x, y, right - x, foot - y, { shape_rendering = "crispEdges",
        fill = kind == "" and C.water_soft or kind == "!" and C.rain or C.warn_soft })
      if k > 1 then d:line(x, foot, right, foot, edge) end
      for row = k, last do
        cells[kind] = cells[kind] or {}
        table.insert(cells[kind], { i, row })
        if i > 1 and kind_at(i - 1, row) ~= kind then d:line(x, place.y(row - 0.5), x, place.y(row + 0.5), edge) end
      end
      k = last + 1
    end
  end
  return cells
end

-- The cell of a kind that is nearest to their middle.
local function middle_of(list)
  local x, y, best, at = 0, 0, math.huge, nil
  for _, c in ipairs(list) do x, y = x + c[1] / #list, y + c[2] / #list end
  for _, c in ipairs(list) do
    local far = (c[1] - x) ^ 2 + (c[2] - y) ^ 2
    if far < best then best, at = far, c end
  end
  return at
end

local WORDS = { [""] = "does its job", ["!"] = "does, with more BOD or solids than is usual" }

-- Names on their ground, the largest first, none over another.
local function draw_names(d, cells, place)
  local kinds, used = {}, {}
  for kind in pairs(cells) do kinds[#kinds + 1] = kind end
  table.sort(kinds, function(a, b) return #cells[a] > #cells[b] or (#cells[a] == #cells[b] and a < b) end)
  for _, kind in ipairs(kinds) do
    if #cells[kind] >= 12 then
      local word, at = WORDS[kind] or choices.meaning(kind), middle_of(cells[kind])
      local room = #word * 3.2
      local x = math.max(chart.LEFT + room + 6, math.min(place.x(at[1]), chart.WIDTH - RIGHT - room - 6))
      local y = place.y(at[2])
      for _, other in ipairs(used) do
        if math.abs(other - y) < 18 then y = other + 18 end
      end
      used[#used + 1] = y
      d:text(x, y, word, { anchor = "middle", stroke = C.paper, stroke_width = 3, paint_order = "stroke" })
    end
  end
end

local function draw_axes(d, job, view, map, place)
  for _, t in ipairs(svg.ticks(0, view:value("area", map.areas[#map.areas]), 8)) do
    local at = chart.LEFT + (chart.WIDTH - RIGHT - chart.LEFT) * t / view:value("area", map.areas[#map.areas])
    d:line(at, HEIGHT - BOTTOM, at, HEIGHT - BOTTOM + 4, { stroke = C.faint })
    chart.text(d, at, HEIGHT - BOTTOM + 17, ("%g"):format(t), "middle", C.faint)
  end
  for _, t in ipairs(svg.ticks(view:value("layer", map.depths[1]), view:value("layer", map.depths[#map.depths]), 6)) do
    local at = place.depth(t * view.system.layer[2])
    d:line(chart.LEFT - 4, at, chart.LEFT, at, { stroke = C.faint })
    chart.text(d, chart.LEFT - 8, at + 4, ("%g"):format(t), "end", C.faint)
  end
  chart.text(d, (chart.LEFT + chart.WIDTH) / 2, HEIGHT - 10, "area of the bed, " .. view:unit("area"), "middle", C.faint)
  chart.text(d, 4, TOP - 12, "wet depth, " .. view:unit("layer"), "start", C.faint)
end

-- The area that the governing rule asks for, and the bed itself.
local function draw_bed(d, job, view, place)
  local r = job.sized
  if r.needed and r.governs then
    local at = place.area(r.needed)
    d:line(at, TOP - 4, at, HEIGHT - BOTTOM, { stroke = C.ink, stroke_dasharray = "6 4", stroke_width = 1.5 })
    chart.text(d, at, TOP - 10, ("asked for: %s"):format(view:show("area", r.needed)), "middle")
  end
  local x, y = place.area(r.area), place.depth(job.depth)
  d:circle(x, y, 8, { fill = "none", stroke = C.ink, stroke_width = 2.5 })
  d:circle(x, y, 2.2, {})
end

return function(job, view)
  local map, r = plan.cells(job, "map"), job.sized
  local left, right, most = chart.LEFT, chart.WIDTH - RIGHT, map.areas[#map.areas]
  local place = {
    area = svg.scale(0, most, left, right),
    depth = svg.scale(map.depths[1], map.depths[#map.depths], HEIGHT - BOTTOM, TOP),
    x = svg.scale(0.5, #map.areas + 0.5, left, right),
    y = svg.scale(0.5, #map.depths + 0.5, HEIGHT - BOTTOM, TOP),
  }
  local d = svg.drawing(chart.WIDTH, HEIGHT, "Trade-off: area against depth", ("Beds of up to %s at %s: which do their job. The ring is a bed of %s, %s deep in water.")
    :format(view:show("area", most), view:show("flow", job.flow), view:show("area", r.area), view:show("layer", job.depth)))
  local cells = draw_cells(d, map, place)
  draw_axes(d, job, view, map, place)
  draw_names(d, cells, place)
  draw_bed(d, job, view, place)
  return d:source()
end

-- SPDX-License-Identifier: MIT
-- Sheet: quantities to buy, and the same as CSV.
local report = require "bed.report"
local materials = {}

local KIND = { m3 = "earth", m2 = "area", kg = "load" }

local function cell(view, unit, x)
  if not x then return "unknown" end
  return unit == "h" and ("%.1f"):format(x) or view:cell(KIND[unit], x)
end

local function put_items(page, t, view)
  local rows, loads, hours = {}, false, false
  for _, item in ipairs(t.items) do
    loads, hours = loads or item.loads ~= nil, hours or item.hours ~= nil
  end
  for i, item in ipairs(t.items) do
    local row = { item.name, cell(view, item.unit, item.net), item.net and ("%.0f"):format(100 * item.waste) or "-",
      item.net and cell(view, item.unit, item.order) or "-", view:unit(KIND[item.unit]) }
    if loads then row[#row + 1] = item.loads and ("%.0f"):format(item.loads) or "-" end
    if hours then row[#row + 1] = item.hours and ("%.1f"):format(item.hours) or "-" end
    rows[i] = row
  end
  local heads = { "Item", "Net", "Waste %", "Order", "Unit" }
  if loads then heads[#heads + 1] = "Loads" end
  if hours then heads[#heads + 1] = "Hours" end
  page:table(heads, rows)
end

-- What the bed is filled with, as it lies.
local function put_layers(page, t, view)
  local rows = {}
  for _, item in ipairs(t.items) do
    if item.thickness then
      rows[#rows + 1] = { item.name, report.stone({ diameter = item.stone, unknown = item.density and not item.stone }, view), view:cell("layer", item.thickness),
        item.area and view:cell("area", item.area) or "unknown", item.volume and view:cell("earth", item.volume) or "unknown",
        item.density and view:cell("density", item.density) or "-" }
    end
  end
  if #rows == 0 then return end
  page:table({ "\nThe bed's stone, in place", "\nStone", "Thick\n" .. view:unit("layer"), "Area\n" .. view:unit("area"),
    "Volume\n" .. view:unit("earth"), "Dry\n" .. view:unit("density") }, rows)
end

-- ---- in words ---------------------------------------------------------------------

local function sheets(t, view)
  local lines = {
    ("Pond liner: one sheet of %s x %s follows the walls, shelves and floor, with the overlap; the rule side + 2 x depth gives %s x %s. The rule walks down upright walls and is longer by what leaning ones save; laid, the liner covers %s.")
      :format(view:cell("length", t.sheet_length), view:show("length", t.sheet_width), view:cell("length", t.rule_length),
        view:show("length", t.rule_width), view:show("area", t.liner)),
  }
  if t.bed_sheet then
    lines[2] = ("Bed liner: a sheet of its own of %s x %s, up its walls to the top of the stone, with the overlap; laid, it covers %s.")
      :format(view:cell("length", t.bed_sheet_length), view:show("length", t.bed_sheet_width), view:show("area", t.bed_liner))
  end
  for _, item in ipairs(t.items) do
    if item.pieces then
      lines[#lines + 1] = ("%s: %.0f pieces of %s x %s, %s of joins with the seam's overlap; whole pieces are ordered.")
        :format(item.name:gsub("^%l", string.upper), item.pieces, view:cell("length", item.piece_length),
          view:show("length", item.piece_width), view:show("length", item.seams))
    end
  end
  return lines
end

-- Items whose mass rests on something taken for granted, and those without any.
local function reasons(lines, t)
  local order, names = {}, {}
  for _, item in ipairs(t.items) do
    for _, why in ipairs { item.assumed and ("is %s"):format(item.assumed) or false, item.unknown and
      ("is not known: %s"):format(item.unknown) or false } do
      if why then
        if not names[why] then names[why], order[#order + 1] = {}, why end
        table.insert(names[why], item.name)
      end
    end
  end
  for _, why in ipairs(order) do
    local list = table.concat(names[why], "; ")
    lines[#lines + 1] = why:find("^is not") and ("%s: the amount %s."):format(list, why) or
      ("%s: the mass %s."):format(list, why)
  end
end

local TOTAL = {
  dig = "digging", liner = "liner to order", underlay = "underlay to order", hours = "man-hours at your own rates",
  light = "stone and gravel to order, pond by way 1", heavy = "stone and gravel to order, pond by way 2",
  layers = "stone and gravel to order, pond by way 3",
}

local function totals(lines, t, view)
  for _, total in ipairs(t.totals) do
    local what = TOTAL[total.name]
    if total.unknown then
      lines[#lines + 1] = ("No total of %s: %s."):format(what, total.unknown)
    elseif total.amount then
      lines[#lines + 1] = ("Total of %s: %s."):format(what, total.unit == "h" and ("%.0f"):format(total.amount)
        or view:show(KIND[total.unit], total.amount))
    end
  end
end

function materials.section(page, job, view)
  local t = job.takeoff
  if not t then return end
  page:heading("Materials")
  put_items(page, t, view)
  put_layers(page, t, view)
  local lines = sheets(t, view)
  lines[#lines + 1] =
    "Ways 1, 2 and 3 figure the same stone: take one of them whole, never boulders of one with gravel of another."
  lines[#lines + 1] = ("Stone takes %s of the pond's room (%s)."):format(view:show("volume", t.displaced),
    t.displaced_by == "layers" and "way 3" or t.displaced_by == "light" and "way 1" or "way 2")
  reasons(lines, t)
  totals(lines, t, view)
  page:list(lines)
end

local function quoted(s)
  return '"' .. s:gsub('"', '""') .. '"'
end

-- The list as CSV: SI, and the reader's unit beside it; then pipes and fittings.
function materials.csv(job, view)
  local out = { "item,net_si,unit_si,waste_share,order_si,order,unit,loads,man_hours,way,basis,pieces,volume_m3,density_kgm3,note" }
  local function put(...)
    out[#out + 1] = table.concat({ ... }, ",")
  end
  local function number(x) return x and ("%.6g"):format(x) or "" end
  for _, i in ipairs(job.takeoff and job.takeoff.items or {}) do
    put(quoted(i.name), number(i.net), i.unit, number(i.waste), number(i.order), i.order and number(view:value(KIND[i.unit], i.order)) or "",
      view:unit(KIND[i.unit]), number(i.loads), number(i.hours), i.way > 0 and ("%d"):format(i.way) or "", quoted(i.basis),
      number(i.pieces), number(i.volume), number(i.density), quoted(i.unknown or i.assumed or ""))
  end
  for _, i in ipairs(job.takeoff and job.takeoff.totals or {}) do
    if i.amount or i.unknown then
      put(quoted("total: " .. i.name), "", i.unit, "", number(i.amount), "", "", "", "", "", "", "", "", "", quoted(i.unknown or ""))
    end
  end
  for k, pipe in ipairs(job.description.pipes or {}) do
    local name = pipe.name or "run " .. k
    local size = pipe.size and ("pipe %s in schedule %s, %s"):format(pipe.size, pipe.schedule or "40", name) or "pipe, " .. name
    put(quoted(size), number(pipe.length), "m", "0", number(pipe.length), number(view:value("length", pipe.length)),
      view:unit("length"), "", "", "", quoted("as described"), "", "", "", quoted(""))
    local kinds = {}
    for kind in pairs(pipe.fittings or {}) do kinds[#kinds + 1] = kind end
    table.sort(kinds)
    for _, kind in ipairs(kinds) do
      if not kind:find("^entrance") and kind ~= "exit" then
        local n = number(pipe.fittings[kind])
        put(quoted(kind .. ", " .. name), n, "pieces", "0", n, n, "pieces", "", "", "", quoted("as described"), "", "", "", quoted(""))
      end
    end
  end
  return table.concat(out, "\n") .. "\n"
end

return materials

-- SPDX-License-Identifier: MIT
-- Sheet: quantities to buy, and the same as CSV.
local materials = {}

local KIND = { m3 = "earth", m2 = "area", kg = "load" }

local function cell(view, unit, x)
  return unit == "h" and ("%.1f"):format(x) or view:cell(KIND[unit], x)
end

-- The bed's stone by layer, from the bottom; nil where no layers are described
-- or the bed has no size.
local function bed_stone(job, view)
  local bed = job.description.bed or {}
  local area = bed.length and bed.width and bed.length * bed.width or bed.area
  if not (bed.layers and area and area > 0) then return nil end
  local parts = {}
  for i, layer in ipairs(tarn.bed.layers { layers = bed.layers, area = area }.layers) do
    if layer.mass > 0 then
      local name = layer.name ~= "" and layer.name or "layer " .. i
      parts[#parts + 1] = ("%s %s"):format(name, view:show("load", layer.mass))
    end
  end
  return "Stone of the bed, from the bottom, dry, without waste, in no row above: " .. table.concat(parts, ", ") .. "."
end

function materials.section(page, job, view)
  local t = job.takeoff
  if not t then return end
  local rows, loads, hours = {}, false, false
  for _, item in ipairs(t.items) do
    loads, hours = loads or item.loads ~= nil, hours or item.hours ~= nil
  end
  for i, item in ipairs(t.items) do
    local row = { item.name, cell(view, item.unit, item.net), ("%.0f"):format(100 * item.waste), cell(view, item.unit, item.order),
      view:unit(KIND[item.unit]) }
    if loads then row[#row + 1] = item.loads and ("%.0f"):format(item.loads) or "-" end
    if hours then row[#row + 1] = item.hours and ("%.1f"):format(item.hours) or "-" end
    rows[i] = row
  end
  local heads = { "Item", "Net", "Waste %", "Order", "Unit" }
  if loads then heads[#heads + 1] = "Loads" end
  if hours then heads[#heads + 1] = "Hours" end
  page:heading("Materials")
  page:table(heads, rows)
  local lines = {
    ("Liner: one sheet of %s x %s follows the walls, shelves and floor, with the overlap; the rule side + 2 x depth gives %s x %s. The rule walks down upright walls and is longer by what leaning ones save; laid, the liner covers %s.")
      :format(view:cell("length", t.sheet_length), view:show("length", t.sheet_width), view:cell("length", t.rule_length),
        view:show("length", t.rule_width), view:show("area", t.liner)),
    "Ways 1, 2 and 3 figure the same stone: take one of them whole, never boulders of one with gravel of another.",
    ("Stone takes %s of the pond's room (%s)."):format(view:show("volume", t.displaced),
      t.displaced_by == "layers" and "way 3" or t.displaced_by == "light" and "way 1" or "way 2"),
  }
  lines[#lines + 1] = bed_stone(job, view)
  if t.hours > 0 then
    lines[#lines + 1] = ("Man-hours at your own rates: %.0f, with one way for the stone."):format(t.hours)
  end
  page:list(lines)
end

local function quoted(s)
  return '"' .. s:gsub('"', '""') .. '"'
end

-- The list as CSV: SI, and the reader's unit beside it; then pipes and fittings.
function materials.csv(job, view)
  local out = { "item,net_si,unit_si,waste_share,order_si,order,unit,loads,man_hours,way,basis" }
  local function put(...)
    out[#out + 1] = table.concat({ ... }, ",")
  end
  local function number(x) return x and ("%.6g"):format(x) or "" end
  for _, i in ipairs(job.takeoff and job.takeoff.items or {}) do
    put(quoted(i.name), number(i.net), i.unit, number(i.waste), number(i.order), number(view:value(KIND[i.unit], i.order)),
      view:unit(KIND[i.unit]), number(i.loads), number(i.hours), i.way > 0 and ("%d"):format(i.way) or "", quoted(i.basis))
  end
  for k, pipe in ipairs(job.description.pipes or {}) do
    local name = pipe.name or "run " .. k
    local size = pipe.size and ("pipe %s in schedule %s, %s"):format(pipe.size, pipe.schedule or "40", name) or "pipe, " .. name
    put(quoted(size), number(pipe.length), "m", "0", number(pipe.length), number(view:value("length", pipe.length)),
      view:unit("length"), "", "", "", quoted("as described"))
    local kinds = {}
    for kind in pairs(pipe.fittings or {}) do kinds[#kinds + 1] = kind end
    table.sort(kinds)
    for _, kind in ipairs(kinds) do
      if not kind:find("^entrance") and kind ~= "exit" then
        local n = number(pipe.fittings[kind])
        put(quoted(kind .. ", " .. name), n, "pieces", "0", n, n, "pieces", "", "", "", quoted("as described"))
      end
    end
  end
  return table.concat(out, "\n") .. "\n"
end

return materials

-- SPDX-License-Identifier: MIT
-- Quantities as the reader wants them: one unit system for a whole report.
local text = require "common.text"
local u = tarn.units

local systems = {
  us = {
    volume = { "US gal", u.gal, 0 },   depth = { "in", u.inch, 2 },
    length = { "ft", u.ft, 2 },        area = { "ft2", u.ft2, 0 },
    rain = { "in", 25.4, 2 },          flow = { "US gal/h", u.gph, 0 },
    layer = { "in", u.inch, 1 },       stone = { "in", u.inch, 2 },
    loading = { "gph/ft2", u.gph_per_ft2, 1 }, bulk = { "yd3", u.yd3, 2 },
    mass = { "lb", u.lb, 0 },          head = { "in", u.inch, 2 },
    load = { "tons", u.ton, 2 },       earth = { "yd3", u.yd3, 1 },
    speed = { "ft/s", u.fps, 2 },      small_flow = { "US gal/min", u.gpm, 1 },
    opening = { "in2", u.inch2, 0 },   storm = { "in/h", u.inch_per_hour, 2 },
    daily = { "US gal/day", u.gpd, 1 }, loss = { "in/day", 25.4, 2 },
    density = { "lb/ft3", u.lb / u.ft ^ 3, 0 },
  },
  metric = {
    volume = { "L", u.liter, 0 },      depth = { "mm", u.mm, 0 },
    length = { "m", 1, 2 },            area = { "m2", 1, 1 },
    rain = { "mm", 1, 0 },             flow = { "L/h", u.lph, 0 },
    layer = { "cm", u.cm, 1 },         stone = { "mm", u.mm, 0 },
    loading = { "m/d", 1, 1 },         bulk = { "m3", 1, 2 },
    mass = { "kg", 1, 0 },             head = { "mm", u.mm, 1 },
    load = { "t", u.tonne, 2 },        earth = { "m3", 1, 1 },
    speed = { "m/s", 1, 2 },           small_flow = { "L/min", u.lpm, 1 },
    opening = { "cm2", u.cm * u.cm, 0 }, storm = { "mm/h", 1, 0 },
    daily = { "L/day", u.liter / 86400, 1 }, loss = { "mm/day", 1, 1 },
    density = { "kg/m3", 1, 0 },
  },
}

local View = {}
View.__index = View

-- Unit of a kind of quantity: "US gal".
function View:unit(kind)
  return self.system[kind][1]
end

-- Number in the reader's unit.
function View:value(kind, si)
  return si / self.system[kind][2]
end

-- Number as text, without its unit: for tables.
function View:cell(kind, si)
  return si and text.number(self:value(kind, si), self.system[kind][3]) or "-"
end

-- Number and unit: for sentences.
function View:show(kind, si)
  return self:cell(kind, si) .. " " .. self:unit(kind)
end

-- "low to high unit"
function View:range(kind, low, high)
  return ("%s to %s %s"):format(self:cell(kind, low), self:cell(kind, high), self:unit(kind))
end

-- Kinds by the unit of a described field.
local KINDS = { m = "length", m2 = "area", m3 = "volume", ["m3/s"] = "flow", ["mm/d"] = "loss", ["mm/h"] = "storm",
  mm = "rain", kg = "mass", ["m/s"] = "speed" }

local function plain(x) return (math.abs(x) >= 100 and "%.0f" or "%.3g"):format(x) end

-- "low to high unit" of a field whose unit is that of a description.
function View:described(unit, low, high)
  local kind = KINDS[unit]
  if kind == "flow" and high < 20 * u.gph then kind = "daily" end     -- splash, seepage
  if kind then low, high, unit = self:value(kind, low), self:value(kind, high), self:unit(kind) end
  return ("%s to %s%s"):format(plain(low), plain(high), unit and unit ~= "-" and " " .. unit or "")
end

-- A temperature, as the reader has it.
function View:temp(celsius)
  return self.name == "us" and ("%.0f F"):format(u.fahrenheit(celsius)) or ("%.3g C"):format(celsius)
end

-- Level, told as height above the floor.
function View:level(m)
  return m and self:show("length", m) or "-"
end

return function(name)
  return setmetatable({ name = name, system = systems[name] }, View)
end

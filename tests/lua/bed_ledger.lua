-- SPDX-License-Identifier: MIT
-- The bed that was sized goes into the ledger: plan area from its sides, water
-- from its layers, plants by month.
local function near(got, want, what)
  assert(math.abs(got - want) <= 1e-12 * math.max(1, math.abs(want)), ("%s: got %.15g, want %.15g"):format(what, got, want))
end

local function refused(part, f, ...)
  local ok, message = pcall(f, ...)
  assert(not ok and tostring(message):find(part, 1, true), ("'%s' is not in: %s"):format(part, message))
end

local plants = { 0.4, 0.4, 0.6, 1.0, 1.4, 1.6, 1.6, 1.6, 1.4, 1.0, 0.6, 0.4 }

local function layers()
  return {
    { name = "crates", thickness = 0.2, porosity = 0.95 },
    { name = "gravel", thickness = 0.5, diameter = 0.02, porosity = 0.38 },
  }
end

local function pond_with(bed)
  return tarn.pond { basin = { shape = "ellipse", length = 5, width = 3.4, depth = 1.2 }, overflow_level = 1.1, trigger = 1.05,
    bed = bed }
end

-- area and water of a sized bed
local pond = pond_with { length = 0.9, width = 2.5, layers = layers(), cover = 0.05, plant_factor = plants }
local facts = pond:facts()
local stack = tarn.bed.layers { layers = layers(), area = 0.9 * 2.5, lip = 0.65 }
near(facts.bed_area, 2.25, "area")
near(facts.bed_water, stack.water, "water")
near(facts.bed_water, 2.25 * (0.2 * 0.95 + 0.45 * 0.38), "water by hand")
near(facts.wetted - facts.full_area, 2.25, "wetted")

-- a measured volume wins; without a size there is no bed
near(pond_with { area = 2, layers = layers(), volume = 0.7 }:facts().bed_water, 0.7, "measured")
near(pond_with { layers = layers() }:facts().bed_area, 0, "no size")

-- the whole ledger is that of a bed described by its numbers
local weather = tarn.weather.read("weather-samples/de_bilt_daily_1980_2019.csv",
  { latitude = 52.1, elevation = 2, wind_height = 10 })
local options = { first = "2018-01-01", last = "2018-12-31" }
local sized = pond:run(weather, options):totals()
local plain = pond_with { area = 2.25, volume = facts.bed_water, plant_factor = plants }:run(weather, options):totals()
local without = pond_with(nil):run(weather, options):totals()
assert(sized.bed > 0.5 and sized.topup > without.topup)
for _, name in ipairs { "topup", "bed", "evaporation", "overflow", "end_level" } do
  if sized[name] then near(sized[name], plain[name], name) end
end

-- a plant factor by month scales the bed's loss
local half = {}
for i, x in ipairs(plants) do half[i] = x / 2 end
local less = pond_with { length = 0.9, width = 2.5, layers = layers(), cover = 0.05, plant_factor = half }
near(less:run(weather, options):totals().bed, sized.bed / 2, "half the plants")

-- sections are checked whichever script reads them
local function with(name, section)
  local d = { basin = { shape = "ellipse", length = 5, width = 3.4, depth = 1.2 }, overflow_level = 1.1 }
  d[name] = section
  return tarn.pond(d)
end
refused("fish.mass [kg] must be 0", with, "fish", { mass = -1 })
refused("protien': did you mean 'protein'", with, "fish", { protien = 0.4 })
refused("yard needs length and width, or corners", with, "yard", { length = 3 })
refused("yard.setback", with, "yard", { length = 3, width = 3, setback = -1 })
refused("chance.k_cv", with, "chance", { k_cv = 9 })
refused("did you mean 'hf-ammonia-2009'", with, "treatment", { rate = "hf-amonia-2009" })
refused("bed.kind must be one of", with, "bed", { kind = "bogg" })
refused("bed.layers[1].porosity", with, "bed", { layers = { { thickness = 1, diameter = 0.1, porosity = 1 } } })
refused("demand must be a table", with, "demand", 3)
assert(with("water", { temp = 18, ph = 7.5 }))

-- The section that `tarn bed` writes has every field that the rows of a bed know, and reads back as it was described.
local choices = require "bed.choices"
local rows, given = nil, { layers = layers() }
for _, section in ipairs(tarn.pond_fields()) do
  if section.section == "bed" then rows = section end
end
local from_size = { length = true, width = true, area = true, volume = true, depth = true, porosity = true, diameter = true }
local tried = 0
for _, row in ipairs(rows) do
  if not from_size[row.name] then
    given[row.name] = row.kind == "choice" and row.choices[#row.choices] or row.kind == "months" and plants
      or row.kind == "number" and math.min(row.hi, math.max(row.lo, 1.25)) or row.kind == "switch"
    tried = tried + 1
  end
end
assert(tried >= 12)
local function written(bed)
  local text = choices.section({ bed = bed, length = 0.9, width = 2.5 }, { name = "metric" })
  return load("return {" .. text .. "}", "section", "t", tarn.units)().bed
end
local back = written(given)
for name, value in pairs(given) do
  if name == "plant_factor" then
    for month = 1, 12 do near(back.plant_factor[month], value[month], "plants") end
  elseif type(value) == "number" then
    near(back[name], value, name)
  elseif name ~= "layers" then
    assert(back[name] == value, name)
  end
end
for i, layer in ipairs(layers()) do
  for name, value in pairs(layer) do
    assert(value == back.layers[i][name] or math.abs(back.layers[i][name] - value) < 1e-12, name)
  end
end
near(back.length, 0.9, "length")
back = written { depth = 0.6, porosity = 0.4, diameter = 0.02 }
near(back.depth, 0.6, "depth")
near(back.porosity, 0.4, "porosity")
near(back.plant_factor, 1.2, "plants by default")

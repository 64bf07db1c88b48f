-- SPDX-License-Identifier: MIT
-- Figures that two parts print of one thing: they are one figure.
local function near(what, got, want)
  assert(math.abs(got / want - 1) < 1e-9, ("%s: %.10g, not %.10g"):format(what, got, want))
end

-- A bed of one stone: 5 m2, 0.6 m under water and 0.05 m dry, voids 0.4.
local function pond(porosity)
  return tarn.pond { basin = { length = 6, width = 4, depth = 1 }, overflow_level = 0.9, pump = { flow = 0.002 },
    bed = { area = 5, depth = 0.6, porosity = porosity, diameter = 0.02, cover = 0.05, drop = 0.5, plant_factor = 1.2 } }
end

local one = pond(0.4)
local bed, takeoff = one:bed_plan():result(), one:takeoff()
near("stone of the bed, kg", bed.stone_mass, 5 * 0.65 * 0.6 * 2650)
near("take-off's stone, kg", takeoff.bed_stone, bed.stone_mass)
near("stone of the bed, m3", bed.stone_volume, 3.25)
for _, item in ipairs(takeoff.items) do
  if item.name == "gravel of the bed" then
    near("take-off's stone, m3", item.volume, bed.stone_volume)
    near("take-off's stone, size", item.stone, 0.02)
  end
end

print("pairs: ok")

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

-- The grid of `tarn bed --csv` weighs the stone under water, and its head says so: of the demo's bed, 8 in of coarse
-- stone and 13 of 16 in of gravel.
local TARN, DEMO = (os.getenv "TARN_BUILD" or "build") .. "/tarn", "weather-samples/courtyard-pond.lua"
local function run(command)
  local pipe = assert(io.popen(TARN .. " " .. command .. " 2>/dev/null"))
  local text = pipe:read "a"
  pipe:close()
  return text
end

local function fields(line)
  local out = {}
  for field in (line .. ","):gmatch "([^,]*)," do out[#out + 1] = field end
  return out
end

local demo = tarn.pond(tarn.description(DEMO)):bed_plan():result()
local u, heads, found = tarn.units, nil, nil
for line in run("bed " .. DEMO .. " --csv -"):gmatch "[^\n]+" do
  local row = {}
  if not heads then heads = fields(line) goto next end
  for i, field in ipairs(fields(line)) do row[heads[i]] = tonumber(field) or field end
  if math.abs(row.area_m2 / (28 * 104 * u.inch ^ 2) - 1) < 1e-6 and math.abs(row.wet_depth_m - 21 * u.inch) < 1e-6
    and math.abs(row.flow_m3s / demo.flow - 1) < 1e-6 then found = row end
  ::next::
end
assert(found, "no row of the grid has the bed described")
assert(math.abs(found.wet_stone_kg / (28 * 104 * u.inch ^ 3 * (8 * 0.58 + 13 * 0.62) * 2650) - 1) < 1e-6, found.wet_stone_kg)
assert(math.abs(found.wet_volume_m3 / (28 * 104 * 21 * u.inch ^ 3) - 1) < 1e-6, found.wet_volume_m3)

-- What drains in during the storm alone is named where the daily rain is.
local topup = run("topup --full " .. DEMO .. " weather-samples/seattle_daily_2012_2015.csv --map weather-samples/seattle-map.lua")
assert(topup:find "Catchments: in the design storm only", "the top-up report is silent on the catchments")

print("pairs: ok")

-- SPDX-License-Identifier: MIT
-- The Lua face of the evaporation wing.  Values are those of FAO-56 (Allen et
-- al. 1998) that tests/test_evaporation.c checks in full; here it is the way
-- from Lua and back that is tested, and what mistakes say.

local tarn = require "tarn"
local air, sun, evaporation = tarn.air, tarn.sun, tarn.evaporation

local function near(got, want, tolerance, what)
  assert(math.abs(got - want) <= tolerance,
    ("%s: got %.9g, want %.9g"):format(what, got, want))
end

local function refused(part, f, ...)
  local ok, message = pcall(f, ...)
  assert(not ok, "accepted, expected: " .. part)
  assert(tostring(message):find(part, 1, true),
    ("'%s' not in '%s'"):format(part, message))
end

-- formulas
near(air.pressure(1800), 81.8, 0.05, "example 2")
near(air.psychrometric(81.8), 0.054, 0.0005, "example 2")
near(air.saturation(24.5), 3.075, 0.0005, "example 3")
near(air.slope(20), 0.145, 0.0005, "table 2.4")
near(air.wind_at_2m(3.2, 10), 2.4, 0.05, "example 14")
near(air.dewpoint(air.saturation(12)), 12, 0.02, "dew point")
near(air.wet_bulb(20, air.saturation(20)), 20, 0.05, "wet bulb")
near(air.latent_heat(20), 2.45, 0.005, "eq. 3-1")
near(sun.top_of_atmosphere(-20, 246), 32.2, 0.05, "example 8")
near(sun.declination(246), 0.120, 0.0005, "example 8")
near(sun.sunset_angle(-20, 246), 1.527, 0.0005, "example 8")
near(sun.inverse_distance(246), 0.985, 0.0005, "example 8")
near(sun.daylight(-20, 246), 11.7, 0.05, "example 9")
near(sun.clear_sky(38.06, 2), 28.54, 0.01, "example 17")

-- one day: Uccle, example 18
local uccle = {
  tmin = 12.3, tmax = 21.5, rh_min = 63, rh_max = 84, wind_2m = 2.078,
  sunshine_h = 9.25, latitude = 50.8, elevation = 100, day_of_year = 187,
}
local function with(changes)
  local day = {}
  for k, v in pairs(uccle) do day[k] = v end
  for k, v in pairs(changes) do day[k] = v end
  return day
end

local grass, origins = evaporation.grass(uccle)
near(grass, 3.88, 0.005, "example 18")
assert(table.concat(origins, " ") == "rh_range sunshine wind",
  table.concat(origins, " "))
near(evaporation.open_water(uccle), 5.252, 0.001, "Penman 1956")
near(evaporation.open_water(with { wind = "1948" }), 5.525, 0.001,
  "Penman 1948")
assert(evaporation.open_water(with { wind = "1956" }) ==
       evaporation.open_water(uccle))
assert(evaporation.open_water(with { albedo = 0.2 }) <
       evaporation.open_water(uccle))
assert(evaporation.open_water(with { heat_storage_mj = 2 }) <
       evaporation.open_water(uccle))
assert(evaporation.priestley_taylor(uccle) > 4)
assert(evaporation.hargreaves(uccle) > 3)
assert(evaporation.mass_transfer(with { area = 20, water_temp = 20 }) >
       evaporation.mass_transfer(with { area = 20 }))
local c = evaporation.conditions(uccle)
near(c.solar, 22.07, 0.005, "example 18")
near(c.vapour, 1.409, 0.0005, "example 18")
near(c.longwave, 3.71, 0.005, "example 18")

-- pans and plants
near(evaporation.pan_to_grass { pan = "class_a_green", wind_2m = 1.9,
  rh_mean = 73, fetch = 1000 }, 0.83, 0.005, "example 22")
near(evaporation.plant_factor { factor = 1.2, wind_2m = 4.6, rh_min = 44,
  height = 2 }, 1.30, 0.005, "example 27")
near(evaporation.plant_factor_strip { dryness = 1, height = 2, width = 1 },
  2.5, 0, "eq. 105")
near(evaporation.plants.cattail_frost.mid, 1.2, 0, "table 12")
assert(evaporation.plants.water_shallow.height == nil)
assert(evaporation.pan_to_pond == 0.7)
assert(evaporation.water_over_grass == 1.05)
assert(evaporation.title("penman_1956"):find("1956"))
local centre = evaporation.centre("penman_1956")
assert(centre.median == 0.88 and centre.sd == 0.14 and evaporation.centre("penman_1956", true).sd > centre.sd)
assert(evaporation.centre("mass_transfer").median ~= evaporation.centre("mass_transfer").median
  or evaporation.centre("mass_transfer").median == nil)
refused("unknown method 'penman'", evaporation.centre, "penman")

-- mistakes
refused("temperature [deg C] must be -90 to 70, got 200", air.saturation, 200)
refused("temperature [deg C] must be a number", air.saturation, "20")
refused("height [m] must be 0.5 to 100, got 0.1", air.wind_at_2m, 3, 0.1)
refused("latitude [degrees] must be -90 to 90, got 91", sun.daylight, 91, 1)
refused("day must be a table", evaporation.grass, 5)
refused("day.tmax is missing", evaporation.grass, { tmin = 3 })
refused("'evaporation.open_water_factor' is called 'water_over_grass' now", tarn.pond,
  { basin = tarn.basin.table { { 0, 2 }, { 1, 2 } }, overflow_level = 1, evaporation = { open_water_factor = 1 } })
refused("did you mean 'day_of_year'", evaporation.grass,
  with { day_of_yaer = 3 })
refused("day.rh_max [%] must be 0 to 100, got 140", evaporation.grass,
  with { rh_max = 140 })
refused("day.tmin 22 is above tmax 21.5", evaporation.grass, with { tmin = 22 })
refused("day.latitude is missing", evaporation.grass,
  { tmin = 3, tmax = 9, day_of_year = 7 })
refused("day.area is missing", evaporation.mass_transfer, uccle)
refused('day.wind must be one of "1956", "1948", got 1947', evaporation.open_water,
  with { wind = 1947 })
refused("unknown field 'day.wind'", evaporation.grass, with { wind = "1956" })
refused("pan_to_grass.pan must be", evaporation.pan_to_grass, { pan = "A" })
refused("pan_to_grass.wind_2m is missing", evaporation.pan_to_grass,
  { pan = "colorado_dry" })
refused("plant_factor.rh_min [%] must be 20 to 80", evaporation.plant_factor,
  { factor = 1.2, wind_2m = 2, rh_min = 90, height = 1 })
refused("unknown method 'penman'", evaporation.title, "penman")
refused("weather", evaporation.run, 5)
refused("weather", evaporation.methods, {})

-- a whole weather
if tarn.weather then
  local function days(value)
    return { value, value, value, value, value }
  end
  local weather = tarn.weather.table {
    first = "2015-07-04", latitude = 50.8, elevation = 100, wind_height = 10,
    tmin = days(12.3), tmax = days(21.5), rh_min = days(63),
    rh_max = days(84), wind = days(10 / 3.6), sunshine = days(9.25),
    pan = days(6),
  }
  local r = evaporation.run(weather)
  assert(r.report.method == "penman_1956" and r.report.days == 5)
  assert(r.report.title:find "1956")
  assert(#r.open_water == 5 and #r.grass == 5 and r.water == nil)
  near(r.grass[3], 3.88, 0.005, "example 18")		-- 6 July
  near(r.open_water[3], 5.252, 0.001, "Penman 1956")
  assert(r.report.count.rh_range == 5 and r.report.count.sea_level == 0)
  local names = {}
  for _, origin in ipairs(r.report.origins) do
    names[#names + 1] = origin.name
    assert(origin.days == 5 and origin.title and origin.estimate == false)
  end
  assert(table.concat(names, " ") == "rh_range sunshine wind")

  r = evaporation.run(weather, { method = "penman_heat", area = 20,
    depth = 1.2, start_water = 15 })
  assert(r.water[1] > 15 and r.water[5] > r.water[1])
  r = evaporation.run(weather, { method = "pan" })
  near(r.open_water[1], 4.2, 1e-12, "pan")
  assert(evaporation.run(weather, { shelter = 0.5 }).open_water[1] < 5.2)

  local possible = {}
  for _, name in ipairs(evaporation.methods(weather)) do
    possible[name] = true
  end
  assert(possible.pan and possible.grass and possible.penman_1948)
  assert(not possible.given and not possible.penman_heat)

  refused("evaporation.depth is missing", evaporation.run, weather,
    { method = "penman_heat", area = 20 })
  refused("reference is not in the weather", evaporation.run, weather,
    { method = "given_reference" })
  refused("evaporation.method must be one of", evaporation.run, weather,
    { method = "penman" })
  refused("did you mean 'shelter'", evaporation.run, weather, { sheltr = 1 })
end

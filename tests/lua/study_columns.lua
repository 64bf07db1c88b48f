-- A column by the path of a description gives what a description with its number gives: a bed in layers, a pump that
-- rests two months, pipes that share its flow.
local weather = tarn.weather.read("weather-samples/de_bilt_daily_1980_2019.csv",
  { latitude = 52.1, elevation = 2, wind_height = 10 })

local function pond(change)
  local d = tarn.description("weather-samples/courtyard-pond.lua")
  local hours = {}
  for m = 1, 12 do hours[m] = (m == 7 or m == 8) and 0 or 24 end
  d.pump.hours = hours
  d.bed.length, d.bed.width, d.bed.area = nil, nil, 6
  d.name = nil
  if change then change(d) end
  return tarn.pond(d)
end

local function figures(of, columns)
  local rows = tarn.study { pond = of, weather = weather, first = "2016-01-01", last = "2018-12-31", columns = columns }:run().values
  return rows.topup[1], rows.overflow[1]
end

local checked, moved = 0, 0
local base_topup, base_overflow = figures(pond())
local function same(field, x, change)
  local topup, overflow = figures(pond(), { { field = field, set = { x } } })
  local topup_written, overflow_written = figures(pond(change))
  assert(topup == topup_written and overflow == overflow_written,
    ("%s: %.17g, %.17g as a column; %.17g, %.17g written"):format(field, topup, overflow, topup_written, overflow_written))
  checked = checked + 1
  if topup ~= base_topup or overflow ~= base_overflow then moved = moved + 1 end
end

same("bed.area", 8, function(d) d.bed.area = 8 end)
same("bed.cover", 0.1, function(d) d.bed.cover = 0.1 end)
same("bed.layers[1].thickness", 0.5, function(d) d.bed.layers[1].thickness = 0.5 end)
same("bed.layers[2].porosity", 0.3, function(d) d.bed.layers[2].porosity = 0.3 end)
same("pump.flow", 1e-3, function(d) d.pump.flow = 1e-3 end)
same("pump.hours[6]", 12, function(d) d.pump.hours[6] = 12 end)
same("basin.length", 6, function(d) d.basin.length = 6 end)
same("basin.shelves[1].width", 0.4, function(d) d.basin.shelves[1].width = 0.4 end)
same("evaporation.shade", 0.7, function(d) d.evaporation = d.evaporation or {}; d.evaporation.shade = 0.7 end)
same("evaporation.shelter", 0.8, function(d) d.evaporation = d.evaporation or {}; d.evaporation.shelter = 0.8 end)
same("overflow_level", 0.98, function(d) d.overflow_level = 0.98 end)
same("yard.dig", 1, function(d) d.yard.dig = 1 end)
assert(checked == 12 and moved == 10, moved)

-- The weather worked out before knows what it came from.
local forcing = pond():forcing(weather, { first = "2016-01-01", last = "2017-12-31" })
local by_column = tarn.study { pond = pond(), weather = forcing, columns = { { field = "evaporation.shade", set = { 0.7 } } } }:run().values
local shaded = pond(function(d) d.evaporation.shade = 0.7 end)
local written = tarn.study { pond = shaded, weather = shaded:forcing(weather, { first = "2016-01-01", last = "2017-12-31" }) }:run().values
assert(by_column.topup[1] == written.topup[1])

-- A basin by its table has no length.
local made = pond(function(d) d.basin = tarn.basin.table { { 0, 6 }, { 1.2, 16 } } end)
local ok, why = pcall(function()
  return tarn.study { pond = made, weather = weather, first = "2016-01-01", last = "2018-12-31", columns = { { field = "basin.length", set = { 5 } } } }:run()
end)
assert(not ok and tostring(why):find("is given beside table", 1, true), why)
assert(figures(made, { { field = "bed.area", set = { 8 } } }) > 0)

assert(tarn.study.unit("bed.layers[3].thickness") == "m" and tarn.study.unit("pump.hours.7") == "h")
assert(tarn.study.unit("pump.hours[7]") == "h" and tarn.study.unit("pump.curve[2][1]") == "m3/s")
assert(tarn.study.unit("pump.curve[2][2]") == "m")
assert(tarn.study.unit("rain") == nil and tarn.study.unit("") == nil)

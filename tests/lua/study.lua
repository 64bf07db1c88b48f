-- SPDX-License-Identifier: MIT
-- tarn.study: variants, parts, records, designs, sensitivities, weather
local study = tarn.study

local function close(a, b, tolerance) return math.abs(a - b) <= (tolerance or 1e-12) * (1 + math.abs(b)) end
local function refused(part, f, ...)
  local ok, message = pcall(f, ...)
  assert(not ok and tostring(message):find(part, 1, true), ("'%s' is not in: %s"):format(part, message))
end

local description = tarn.description("weather-samples/courtyard-pond.lua")
local pond = tarn.pond(description)
local map = tarn.description("weather-samples/seattle-map.lua")
local weather = tarn.weather.read("weather-samples/seattle_daily_2012_2015.csv", map)

-- ---- a study is the ledger, many times ----------------------------------------
local bed = { 1, 2, 3, 4 }
local made = study { pond = pond, weather = weather, columns = {
  { field = "bed.area", set = bed }, { field = "rain", set = { false, 0.5, false, 2 } } } }
assert(#made == 4)
local r = made:run { threads = 2 }
assert(r.done == 4 and r.bad == 0 and not r.stopped and r.first == 1)
description.bed.area, description.bed.length, description.bed.width = 3, nil, nil
local totals = tarn.pond(description):run(weather):totals()
assert(close(r.values.topup[3], totals.topup) and close(r.values.overflow[3], totals.overflow))
assert(close(r.values.lowest_level[3], totals.lowest_level))
assert(r.values.topup[2] > r.values.topup[4])
assert(r.values.tank_empty[1] == false)               -- no tank: no value
assert(#study.quantities() == 33 and study.quantities()[1].name == "topup")

-- ---- parts, merge, going on ------------------------------------------------------
local many = {}
for i = 1, 100 do many[i] = 0.5 + i / 50 end
local big = study { pond = pond, weathers = { weather, pond:forcing(weather, { method = "hargreaves" }) },
  columns = { { field = "bed.area", times = many } } }
local whole = big:run { values = { "topup", "week_p90" } }
local parts = {}
for k = 1, 3 do parts[k] = big:run { part = 4 - k, parts = 3, values = { "topup", "week_p90" } }.record end
assert(study.merge(parts) == whole.record)
refused("is missing", study.merge, { parts[1], parts[3] })
refused("begins with the same row", study.merge, { parts[1], parts[2], parts[2], parts[3] })
local record = study.record(whole.record)
assert(record.rows == 200 and record.done == 200 and record.fingerprint == big:fingerprint())
assert(record.values.topup[7] == whole.values.topup[7])
local asked = 0
local half = big:run { threads = 1, values = { "topup", "week_p90" }, progress = function(done, rows)
  asked = asked + 1
  return done * 2 >= rows
end }
assert(half.stopped and half.done >= 100 and half.done < 200 and asked > 0)
refused("unfinished", study.merge, { half.record })
local rest = big:run { values = { "topup", "week_p90" }, resume = half.record, limit = 30 }
assert(rest.done == half.done + 30 and not rest.stopped)
assert(big:run { values = { "topup", "week_p90" }, resume = rest.record }.record == whole.record)
refused("another study", made.run, made, { resume = whole.record })
refused("my own", big.run, big, { progress = function() error("my own") end })

-- ---- what is refused ----------------------------------------------------------------
local bad = { 1, -1, 2 }
local broken = study { pond = pond, weather = weather, columns = { { field = "bed.area", set = bad } } }
local numbers, why = broken:check()
assert(#numbers == 1 and numbers[1] == 2 and why:find "variant 2")
refused("(variant 2) must be 0 to", broken.run, broken)
refused("must be 0 to 3, got 9", function()
  study { pond = pond, weather = weather, columns = { { field = "bed.plant_factor", set = { 9 } } } }:run()
end)
local skipping = study { pond = pond, weather = weather, skip_bad = true,
  columns = { { field = "bed.area", set = bad } } }
r = skipping:run()
assert(r.bad == 1 and r.values.topup[2] == false and r.values.topup[3] > 0)
refused("did you mean 'bed.area'?", function()
  study { pond = pond, weather = weather, columns = { { field = "bed.aera", set = bad } } }:run()
end)
refused("one of set, times or plus", study, { pond = pond, weather = weather, columns = { { field = "overflow_level" } } })
refused("has 1 values", study, { pond = pond, weather = weather,
  columns = { { field = "overflow_level", set = { 1, 2 } }, { field = "bed.area", set = { 1 } } } })
refused("either pond or ponds", study, { weather = weather })
refused("unknown field 'column'", study, { pond = pond, weather = weather, column = {} })

-- ---- a control of one's own: a ledger for each row ----------------------------------------
local days = 0
local ruled = study { pond = pond, weather = weather, columns = { { field = "bed.area", set = { 1, 2 } } },
  each_day = function(day) days = days + 1; if day.month == 7 then day.supply_open = false end end }
r = ruled:run()
assert(days == 2 * #weather and r.values.restricted[1] > 0)
refused("mine", function()
  study { pond = pond, weather = weather, each_day = function() error("mine") end }:run()
end)

-- ---- designs and sensitivities -----------------------------------------------------------
assert(#study.grid { 2, 3 } == 2 and #study.grid { 2, 3 } [1] == 6)
assert(#study.latin(10, 2, 1)[2] == 10 and study.latin(10, 2, 1)[1][1] == study.latin(10, 2, 1)[1][1])
assert(study.sobol(4, 2)[1][2] == 0.5 and study.scale({ 0, 0.5, 1 }, 10, 20)[2] == 15)
local one = study.one_at_a_time({ 1, 10 }, { 2, 20 })
assert(one[1][1] == false and one[1][2] == 1 and one[1][3] == 2 and one[2][4] == 10)
local swings = study.swings { 5, 4, 6, 1, 9 }
assert(swings[2].rank == 1 and swings[2].swing == 8 and swings[1].base == 5)
local design, y = study.sensitivity_samples(512, 2), {}
for i = 1, 512 * 4 do y[i] = 3 * design[1][i] + design[2][i] end    -- 0.9 and 0.1 of the variance
local s = study.sensitivity(y, 2)
refused("count must be a whole number", study.sensitivity_samples, 2.5, 2)
assert(close(s[1].first, 0.9, 0.01) and close(s[2].total, 0.1, 0.01))
assert(s[1].first_low < 0.9 and s[1].first_high > 0.9)

-- ---- changed and generated weather ---------------------------------------------------------
local warm = study.changed(weather, { temperature = 2, rain = { 1, 1, 1, 1, 1, 0, 0, 0, 1, 1, 1, 1 } })
assert(close(warm:column("tmax")[1], weather:column("tmax")[1] + 2))
assert(warm:summary().rain.mean < weather:summary().rain.mean)
assert(weather:notes() ~= nil and table.concat(warm:notes(), " "):find "not as measured")
refused("change.temperature", study.changed, weather, { temperature = 50 })
local long = study.generate(weather, { years = 50, seed = 3 })
assert(#long == 18262)
assert(close(long:summary().tmax.mean, weather:summary().tmax.mean, 0.03))
assert(close(long:summary().rain.mean, weather:summary().rain.mean, 0.15))
assert(study { pond = pond, weather = long }:run().values.year_p90[1] > 0)
local again = study.generate(weather, { years = 50, seed = 3 })
assert(again:column("rain")[777] == long:column("rain")[777])

-- ---- budget, tank ------------------------------------------------------------------------------
local budget = study.budget { reference = 51.1, unit = 0.62, area = 50000, adjustment = 0.7, plant_factor = 1 }
assert(close(budget.allowance, 1108870, 1e-6))
assert(study.tank_capacity({ 1, 2 }, { 0.2, 0.4 }, 0.3) == 1.5 and study.tank_capacity({ 1 }, { 0.2 }, 0.3) == nil)

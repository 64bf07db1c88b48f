-- SPDX-License-Identifier: MIT
-- Corners that the guides seldom reach, each held against a law or a sum by hand.
local weather, study, flow = tarn.weather, tarn.study, tarn.flow

local function close(a, b, what)
  assert(a and math.abs(a - b) <= 1e-9 * (1 + math.abs(b)), ("%s: %s, want %s"):format(what, a, b))
end

local function refused(part, f, ...)
  local fine, message = pcall(f, ...)
  assert(not fine and tostring(message):find(part, 1, true), ("'%s' is not in: %s"):format(part, message))
end

-- ---- weather files ------------------------------------------------------------------
-- A depth or an energy of a day may be written "per day".
do
  local w = weather.parse("date,rain,solar\n2024-07-01,2,10\n2024-07-02,4,20\n",
    { units = { rain = "in/d", solar = "MJ/m2/day" } })
  close(w:summary().rain.mean, 3 * 25.4, "inches a day")
  close(w:summary().solar.mean, 15, "radiation")
  refused("tmin", weather.parse, "date,tmin\n2024-07-01,2\n", { units = { tmin = "C/day" } })
end

-- Where a comma is the point, a point is no part of a number.
do
  local how = { delimiter = ";", decimal = ",", units = { rain = "mm" } }
  close(weather.parse("date;rain\n2024-07-01;1,5\n", how):summary().rain.mean, 1.5, "comma")
  refused("1.5", weather.parse, "date;rain\n2024-07-01;1.5\n", how)
  refused("format", weather.parse, "date;rain\n2024-07-01;1,5\n",
    { delimiter = ";", decimal = ",", units = { rain = "mm" }, date = { name = "date", format = "%Y-%Q-%d" } })
end

-- A bridged humidity stays on its side of the other one.
do
  local w = weather.table { first = "2024-07-01", rh_min = { 40, false, 60 }, rh_max = { 90, 45, 90 }, rain = { 0, 0, 0 } }
  w:fill { interpolate = 1 }
  close(w:summary().rh_min.max, 60, "rh_min")
  assert(w:summary().rh_min.mean <= (40 + 45 + 60) / 3 + 1e-9, "bridged over the highest humidity of that day")
  local v = weather.table { first = "2024-07-01", rh_min = { 40, 80, 40 }, rh_max = { 70, false, 70 }, rain = { 0, 0, 0 } }
  v:fill { interpolate = 1 }
  assert(v:summary().rh_max.mean >= (70 + 80 + 70) / 3 - 1e-9, "bridged under the lowest humidity of that day")
end

-- Warmer air keeps its relative humidity: the vapour pressure rises as saturation does.
do
  local w = weather.table { first = "2024-07-01", tmean = { 20 }, vapour = { 1.2 }, rain = { 0 } }
  close(study.changed(w, { temperature = 2 }):summary().vapour.mean,
    1.2 * tarn.air.saturation(22) / tarn.air.saturation(20), "vapour of warmer air")
  local v = weather.table { first = "2024-07-01", tmin = { 14 }, tmax = { 26 }, vapour = { 1.2 }, rain = { 0 } }
  close(study.changed(v, { temperature = 2 }):summary().vapour.mean,
    1.2 * tarn.air.saturation(22) / tarn.air.saturation(20), "vapour, from the extremes")
end

-- ---- water ---------------------------------------------------------------------------
-- A V-notch with a coefficient of its own: Q = C tan(angle / 2) H^2.5.
do
  local notch = flow.weir { kind = "v_notch", angle_deg = 60, coefficient = 1.4, head = 0.1 }
  close(notch.flow, 1.4 * math.tan(math.pi / 6) * 0.1 ^ 2.5, "notch")
end

-- ---- ponds -----------------------------------------------------------------------------
-- Upright walls and one ledge: two boxes, 3 x 2 x 0.7 and 4 x 3 x 0.3 m.
do
  local b = tarn.basin.shelved { shape = "rectangle", length = 4, width = 3, depth = 1, side_slope = 0,
    shelves = { { depth = 0.3, width = 0.5 } } }
  close(b:volume(0.7), 4.2, "under the ledge")
  close(b:volume(1), 7.8, "two boxes")
  close(b:level(4.2), 0.7, "level of the ledge")
  close(b:area(0.7), 12, "the ledge just under water")
end

-- An irregular outline: its area is the factor times length and width, and its
-- shore, as documented, that of the oval of its sizes times the root of the areas.
do
  local t = { basin = { shape = "irregular", area_factor = 0.6, length = 4, width = 3, depth = 1 }, overflow_level = 0.9 }
  local first = tarn.pond(t):profile()[1]
  close(first.area, 0.6 * first.length * first.width, "area")
  t.basin.shape, t.basin.area_factor = "ellipse", nil
  local oval = tarn.pond(t):profile()[1]
  close(first.perimeter, oval.perimeter * math.sqrt(0.6 / (math.pi / 4)), "shore")
end

-- A pond that is asked for more than it holds: each taker gets the same share, and
-- they get what there was.
do
  local made = weather.table { first = "2024-07-01", open_water = { 10 }, reference = { 10 }, rain = { 0 } }
  local pond = tarn.pond { basin = tarn.basin.table { { 0, 2 }, { 1, 2 } }, overflow_level = 1, evaporation = { water_over_grass = 1 },
    withdrawals = { { volume = 3 } } }
  local day = pond:run(made, { method = "given", start_level = 0.5 }):days()[1]
  close(day.evaporation + day.withdrawal, 1, "all that there was")
  close(day.withdrawal / day.evaporation, 3 / 0.02, "shares")
  close(day.shortfall, 3 + 0.02 - 1, "what was not there")
end

-- ---- studies ---------------------------------------------------------------------------
do
  local pond = tarn.pond(tarn.description "weather-samples/courtyard-pond.lua")
  local days = { first = "2024-07-01", latitude = 47.5, elevation = 50, wind_height = 10,
    tmin = {}, tmax = {}, wind = {}, rain = {} }
  for i = 1, 31 do days.tmin[i], days.tmax[i], days.wind[i], days.rain[i] = 12, 25, 2, 0 end
  local w = weather.table(days)
  -- a variant that cannot stand is left out, by threads and by a control alike
  local columns = { { field = "overflow_level", set = { false, 99, false } } }
  local plain = study { pond = pond, weather = w, columns = columns, skip_bad = true }:run()
  local ruled = study { pond = pond, weather = w, columns = columns, skip_bad = true, each_day = function() end }:run()
  assert(plain.bad == 1 and ruled.bad == 1 and ruled.values.topup[2] == false)
  close(ruled.values.topup[3], plain.values.topup[3], "a control that does nothing")
  -- and a run with a control stops when it is asked to
  local stopped = study { pond = pond, weather = w, columns = columns, skip_bad = true, each_day = function() end }
    :run { progress = function(done) return done >= 1 end }
  assert(stopped.stopped and stopped.done < 3)
end

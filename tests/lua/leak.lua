-- SPDX-License-Identifier: MIT
-- The Lua side of logs, the leak fit and paired tests.
local u = tarn.units

local function near(got, want, tol)
  assert(math.abs(got - want) <= (tol or 1e-12), ("got %.15g, want %.15g"):format(got, want))
end

local function refused(part, f, ...)
  local ok, message = pcall(f, ...)
  assert(not ok, "accepted: " .. part)
  assert(tostring(message):find(part, 1, true), ("'%s' is not in: %s"):format(part, message))
end

-- logs
local log = tarn.log.read("tests/data/pond-log.csv")
assert(#log == 8)
local first = log:readings()[1]
assert(first.date == "2025-05-02" and first.hour == 7.5 and first.line == 3 and not first.meter)
near(first.level, -1.5 * u.inch)
local info = log:info()
assert(info.counts_down and info.levels == 8 and info.meters == 0 and info.without_time == 1)
assert(info.ignored == "Fish fed")
near(info.step, u.inch / 8)
refused("tests/bad/logs/out-of-order.csv:4:1: date comes before", tarn.log.read, "tests/bad/logs/out-of-order.csv")
refused("nowhere.csv: No such file", tarn.log.read, "nowhere.csv")
refused("log.unit must be one of", tarn.log.read, "tests/data/pond-log.csv", { unit = "furlong" })
refused("did you mean 'unit'?", tarn.log.read, "tests/data/pond-log.csv", { unti = "mm" })
refused("reading.date is missing: give it as YYYY-MM-DD", tarn.log.list, { { level = 1 } })
refused("needs level or meter", tarn.log.list, { { date = "2025-05-02" } })
refused("did you mean 'level'?", tarn.log.list, { { date = "2025-05-02", levle = 1 } })

-- a pond that loses 2 mm/d more than it should
local days, dry, wet = {}, {}, {}
for i = 1, 30 do days[i], dry[i], wet[i] = 4 + math.sin(i), 0, i % 7 == 3 and 6 or 0 end
local weather = tarn.weather.table { first = "2025-05-01", rain = wet, open_water = days, reference = days, latitude = 45 }
local function pond_of(more)
  local d = { basin = { shape = "rectangle", length = 5, width = 4, depth = 1.1 }, overflow_level = 1 }
  for key, value in pairs(more or {}) do d[key] = value end
  return tarn.pond(d)
end
local pond = pond_of()
local ledger = pond_of({ seepage = { rate = 2 } }):run(weather, { start_level = 0.95, method = "given" })
local list = { { date = "2025-05-01", hour = 0, level = 0.95 } }
for i, day in ipairs(ledger:days()) do
  if i < 30 then
    list[#list + 1] = { date = ("2025-05-%02d"):format(i + 1), hour = 0, level = day.level, refill = false }
  end
end
local leak = tarn.leak { pond = pond, weather = weather, log = tarn.log.list(list), method = "given", zero = 0, evaporation_mean = 1 }
local r = leak:result()
assert(r.outside and not r.inside and not r.gains and r.verdict == "outside what weather explains")
near(r.unexplained_mm_d.mean, 2, 0.4)
assert(r.unexplained_mm_d.low < 2 and 2 < r.unexplained_mm_d.high)
assert(r.used == 29 and r.set_aside == 0 and r.wild == 0 and not r.change.found)
assert(leak:report().method == "given")
local v = leak:intervals()
assert(#v == 29 and v[3].fate == "used" and v[3].from == "2025-05-03" and v[3].rain_mm == 6)
local path = leak:path()
assert(#path == 30 and path[1].begins and not path[2].begins and path[30].logged < path[30].expected)
local c = leak:calibration()
near(c.seepage_volume, 0.002 * 20 / 86400, 1e-7)
assert(#c.plant_factor == 12)
local better = pond_of { open_water_factor = c.open_water_factor, seepage = { volume = c.seepage_volume } }
near(leak:path(better)[30].expected, path[30].logged, 0.003)
local h = leak:holdout()
assert(h.fitted == 16 and h.predicted == 14 and h.rms_mm < h.plain_rms_mm)
assert(#leak:weeks() == 0)

-- a sound pond, whose interval holds zero, is not calibrated to lose
local sound = { list[1] }
for i, day in ipairs(pond:run(weather, { start_level = 0.95, method = "given" }):days()) do
  if i < 30 then      -- 0.15 mm/d more: the best estimate stands off zero
    sound[#sound + 1] = { date = ("2025-05-%02d"):format(i + 1), hour = 0, level = day.level - 0.0005 * i * 0.3 }
  end
end
local quiet = tarn.leak { pond = pond, weather = weather, log = tarn.log.list(sound), method = "given", zero = 0 }
local q = quiet:result()
assert(q.unexplained_m3_d.mean > 0 and q.unexplained_m3_d.low < 0)
assert(quiet:calibration().seepage_volume == 0)
near(quiet:calibration().open_water_factor, q.sound_factor.mean, 1e-9)

refused("pond must come from tarn.pond", tarn.leak, { weather = weather })
refused("weather must come from", tarn.leak, { pond = pond, log = log })
refused("log must come from", tarn.leak, { pond = pond, weather = weather })
refused("did you mean 'matters'?", tarn.leak, { pond = pond, weather = weather, log = log, mattres = 1 })
refused("leak.reading_error [m] must be", tarn.leak, { pond = pond, weather = weather, log = log, reading_error = 0 })

-- a meter beside a float valve
local valved = pond_of { trigger = 0.95, target = 0.96 }
local metered = {}
for i = 0, 4 do metered[i + 1] = { date = ("2025-05-%02d"):format(1 + 7 * i), hour = 8, meter = i * 7 * 0.2 } end
local weeks = tarn.leak { pond = valved, weather = weather, log = tarn.log.list(metered), method = "given" }:weeks()
assert(#weeks == 4 and weeks[1].over and weeks[4].days == 7)
near(weeks[2].metered, 1.4, 1e-9)

-- pairs
local t = tarn.pair { pond = pond, off = { hours = 48, drop = 0.02, bucket = 0.008 } }
near(t.off.expected, 0.008, 1e-9)
near(t.off.unexplained_mm_d.mean, 6, 1e-6)
assert(t.off.verdict == "outside what weather explains" and not t.on and not t.upper_mm_d)
t = tarn.pair { pond = pond, off = { hours = 48, drop = 0.008, bucket = 0.008 },
  on = { hours = 24, drop = 0.014, weather = 4 } }
assert(t.upper_mm_d.mean > 9 and t.splash.mean > 0)
refused("off had 3 mm of rain", tarn.pair, { pond = pond, off = { hours = 48, drop = 0.02, bucket = 0.008, rain = 3 } })
refused("off bucket fell more than 50 mm", tarn.pair, { pond = pond, off = { hours = 48, drop = 0.2, bucket = 0.11 } })
refused("off drop takes the level under the floor", tarn.pair, { pond = pond_of { overflow_level = 0.9 }, off = { hours = 48, drop = 0.95, bucket = 0.01 } })
refused("pair holds neither half", tarn.pair, { pond = pond })
refused("did you mean 'bucket'?", tarn.pair, { pond = pond, off = { buckte = 1 } })
near(tarn.pair_hours { loss_mm_d = 2.9264 * 2 * 25.4 / 16 }, 24, 0.01)
assert(tarn.pair_hours { loss_mm_d = 1, spread_mm_d = 9 } == math.huge)

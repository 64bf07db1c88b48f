-- SPDX-License-Identifier: MIT
-- pond:forecast: the ranges of a pond's top-up, their budget, what a measurement is worth
local function near(got, want, tol)
  assert(math.abs(got - want) <= tol, ("got %.15g, want %.15g"):format(got, want))
end
local function refused(path, part, f, ...)
  local ok, why = pcall(f, ...)
  assert(not ok and why.path == path and why.text:find(part, 1, true), tostring(why))
end

-- nine years: summers that differ, rain every fifth day
local rain, open = {}, {}
for i = 1, 9 * 365 + 2 do
  rain[i] = i % 5 == 0 and 7 or 0
  open[i] = (3 + math.sin(i / 700)) * (1 - math.cos(i / 365.25 * 2 * math.pi)) / 2 + 0.2
end
local weather = tarn.weather.table { first = "2001-01-01", rain = rain, open_water = open, reference = open, latitude = 45 }
local pond = tarn.pond { basin = { shape = "rectangle", length = 5, width = 4, depth = 1.1 }, overflow_level = 1, trigger = 0.95 }
local asked = { method = "given" }

-- ---- a range, and what it is of ------------------------------------------------------
local f = pond:forecast(weather, asked)
local season = tarn.season(pond:run(weather, asked))
assert(f.worlds == 256 and f.days == #rain and f.year.count == 9 and #f.months == 12 and #f.weeks == 52)
assert(f.peak_month == season.peak_month and f.peak_month == 6 or f.peak_month == 7)
for _, range in ipairs { f.a_week, f.year, f.months[f.peak_month].a_week } do
  assert(0 < range.p10 and range.p10 < range.p50 and range.p50 < range.p90)
  assert(range.site_p10 < range.site_p90 and range.weather_p10 <= range.weather_p90)
  assert(range.site_share > 0 and range.site_share <= 1)
end
-- the years of the world in the middle are those of the ledger
near(f.year.weather_p10, season.year_topup.p10, 1e-9)
near(f.year.weather_p90, season.year_topup.p90, 1e-9)
near(f.weeks[27].topup.count, 256 * season.weeks[27].topup.count, 0)
near(pond:forecast(weather, { method = "given", seed = 2 }).year.p90 / f.year.p90, 1, 0.03)
near(pond:forecast(weather, asked).year.p90, f.year.p90, 0)

-- ---- options: of the run, and its own --------------------------------------------------
local three = pond:forecast(weather, { method = "given", first = "2002-01-01", last = "2004-12-31", worlds = 32 })
assert(three.worlds == 32 and three.year.count == 3 and three.days == 1096)
assert(pond:forecast(weather, { method = "given", evaporation = 2 }).year.p50 > 1.5 * f.year.p50)
near(pond:forecast(weather, { method = "given", topup = false }).year.p90, 0, 0)
local short = pond:forecast(weather, { method = "given", last = "2001-01-20" })
assert(short.year.count == 0 and short.year.p50 == nil and short.peak_month == 0 and #short.year.worth == 0)
refused("worlds", "16", pond.forecast, pond, weather, { method = "given", worlds = 8 })
refused("rain_sd", "0.2", pond.forecast, pond, weather, { method = "given", rain_sd = 0.3 })
refused("world", "unknown", pond.forecast, pond, weather, { method = "given", world = 8 })

-- ---- its budget, and a method that has none ---------------------------------------------
local b = f.budget
near(b.centre_sd_ln ^ 2, b.sd_ln.method ^ 2 + b.sd_ln.station ^ 2 + b.sd_ln.wind ^ 2 + b.sd_ln.sun ^ 2 + b.sd_ln.surroundings ^ 2, 1e-12)
assert(b.measured == false and b.day_sd == 0.25)
local air = tarn.weather.table { first = "2001-01-01", rain = { 0, 0, 1 }, tmin = { 9, 9, 9 }, tmax = { 20, 21, 22 }, latitude = 45 }
refused("method", "has no centre", pond.forecast, pond, air, { method = "mass_transfer" })
-- neither sun nor humidity measured: wider
assert(pond:forecast(air, { method = "penman_1956" }).budget.sd_ln.method == 0.19)

-- ---- what to measure ------------------------------------------------------------------------
for _, range in ipairs { f.a_week, f.year, f.months[7].a_week } do
  assert(range.worth[1].remedy == "bucket" and #range.worth >= 4)
  for i, w in ipairs(range.worth) do
    assert(w.ratio > 0 and w.ratio < 1 and w.site_ratio <= w.ratio and w.halves == (w.ratio <= 0.5))
    assert(i == 1 or w.ratio >= range.worth[i - 1].ratio)
  end
end

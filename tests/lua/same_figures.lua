-- SPDX-License-Identifier: MIT
-- A figure that two parts give is one figure.
local function near(got, want, tol)
  assert(math.abs(got - want) <= (tol or 1e-9), ("got %.15g, want %.15g"):format(got, want))
end

-- ---- weather: three whole years of a southern summer ------------------------------

local rain, open, names = {}, {}, {}
for i = 1, 1095 do
  rain[i] = i % 9 == 0 and 4 or 0
  open[i] = 4 + 3 * math.cos((i - 1) / 365.25 * 2 * math.pi)
end
for i = 365, 371 do open[i] = 15 end      -- from Monday, 2001-12-31
local weather = tarn.weather.table { first = "2001-01-01", rain = rain, open_water = open, reference = open, latitude = -35 }

local function pond_of(more)
  local d = { basin = { shape = "rectangle", length = 5, width = 4, depth = 1.1 }, overflow_level = 1, trigger = 0.95 }
  for key, value in pairs(more or {}) do d[key] = value end
  return tarn.pond(d)
end

local function study_of(pond)
  return tarn.study { pond = pond, weather = pond:forcing(weather, { method = "given" }) }:run { threads = 1 }.values
end

-- ---- a year of the top-up report and of the study -----------------------------------

local pond = pond_of()
local season = tarn.season(pond:run(weather, { method = "given" }))
local values = study_of(pond)
near(season.year_peak.p50, values.week_p50[1])
near(season.year_peak.p90, values.week_p90[1])
near(season.year_topup.p50, values.year_p50[1])
near(season.year_topup.p90, values.year_p90[1])
for _, m in ipairs(season.months) do names[m.month] = m.topup end
for month, name in ipairs { "january", "february", "march" } do
  local days = month == 2 and 28.25 * 3 / 84 or 1       -- three Februaries of 28 days
  near(values[name][1], names[month] * days, 1e-9)
end

-- ---- a pump that rests in a month: the log of a sound pond explains itself ----------

local resting = { hours = { 0, 24, 24, 24, 24, 24, 24, 24, 24, 24, 24, 0 }, drainback = 0.2 }
local first = "2001-11-20"
local plain = tarn.pond { basin = { shape = "rectangle", length = 5, width = 4, depth = 1.1 }, overflow_level = 1, pump = resting }
local days = plain:run(weather, { method = "given", first = first, last = "2002-01-20", start_level = 0.9 }):days()
local list = {}
for i = 1, #days - 1 do list[i] = { date = days[i + 1].date, hour = 0, level = days[i].level } end
local leak = tarn.leak { pond = plain, weather = weather, log = tarn.log.list(list), method = "given", zero = 0, evaporation_mean = 1 }
local switched = 0
for _, v in ipairs(leak:intervals()) do
  if v.fate == "used" then near(v.expected_mm, v.logged_mm, 1e-6) end
  if v.fate == "pump switched" then
    switched = switched + 1
    assert(v.from == "2001-12-01")
  end
end
assert(switched == 1)
local result = leak:result()
assert(result.inside and math.abs(result.unexplained_mm_d.mean) < 0.05)

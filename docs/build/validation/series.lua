-- SPDX-License-Identifier: MIT
-- Daily series that others publish, and what stored heat changes.
local text = dofile "docs/build/validation/text.lua"
local say, paragraph, column, mean, rms, day_number, SAMPLES = text.say, text.paragraph, text.column, text.mean, text.rms, text.day_number, text.SAMPLES

-- ---- published series ------------------------------------------------------------

-- Errors by day, month and year of a list of {date=, got=, want=}.
local function errors(rows)
  local out = { days = #rows, day = {}, month = {}, year = {} }
  local sums = { month = {}, year = {} }
  for _, r in ipairs(rows) do
    out.day[#out.day + 1] = r.got - r.want
    for kind, length in pairs { month = 7, year = 4 } do
      local key = r.date:sub(1, length)
      local s = sums[kind][key] or { 0, 0, 0 }
      s[1], s[2], s[3] = s[1] + r.got, s[2] + r.want, s[3] + 1
      sums[kind][key] = s
    end
  end
  for kind, list in pairs(sums) do
    for _, s in pairs(list) do table.insert(out[kind], s[1] - s[2]) end
  end
  local want = 0
  for _, r in ipairs(rows) do want = want + r.want end
  out.mean_year = want / #rows * 365.25
  return out
end

local function put_errors(title, rows)
  local e = errors(rows)
  say("| %s | %d | %.2f | %.1f | %.0f | %+.0f (%+.1f %%) | %.0f |\n", title, e.days, rms(e.day), rms(e.month), rms(e.year),
    mean(e.year), 100 * mean(e.day) * 365.25 / e.mean_year, e.mean_year)
end

local HEAD = "| compared | days | day, rms mm | month, rms mm | year, rms mm | mean error a year | published, mm/yr |\n"
  .. "| --- | --- | --- | --- | --- | --- | --- |\n"

local function series(weather, got, want)
  local out, first = {}, day_number(weather:first())
  for i, x in ipairs(got) do
    if x == x and want[i] == want[i] then
      out[#out + 1] = { date = os.date("!%Y-%m-%d", (first + i - 1) * 86400 + 43200), got = x, want = want[i] }
    end
  end
  return out
end

local function put_fallon()
  local weather = tarn.weather.read(SAMPLES .. "fallon_daily_2015.csv", {
    layout = "none", latitude = 39.4575, elevation = 1208.5, wind_height = 3,
    columns = {
      tmin = column("tmin_c", "C"), tmax = column("tmax_c", "C"), dewpoint = column("tdew_c", "C"),
      wind = column("wind_ms_3m", "m/s"), solar = column("solar_mj_m2", "MJ/m2"), reference = column("eto_asce_mm", "mm"),
    },
  })
  local want = weather:column("reference")
  weather:fill { interpolate = 1 }
  say("## Fallon, Nevada, 2015: grass reference\n\n")
  paragraph [[Published daily ASCE grass reference of the US Bureau of Reclamation's station network, against
    Tarn's FAO-56 grass reference from the same measurements. This tests the arithmetic against another body's, not
    evaporation against nature; the two standards differ slightly.]]
  say(HEAD)
  put_errors("FAO-56 grass", series(weather, tarn.evaporation.run(weather, { method = "grass" }).grass, want))
  say("\n")
end

local function de_bilt()
  return tarn.weather.read(SAMPLES .. "de_bilt_daily_1980_2019.csv", {
    layout = "none", latitude = 52.1, elevation = 2, wind_height = 10,
    columns = {
      tmin = column("tmin_c", "C"), tmax = column("tmax_c", "C"), tmean = column("tmean_c", "C"),
      rh_mean = column("rh_pct", "%"), rh_min = column("rhmin_pct", "%"), rh_max = column("rhmax_pct", "%"),
      wind = column("wind_ms", "m/s"), solar = column("solar_mj_m2", "MJ/m2"), rain = column("rain_mm", "mm"),
      reference = column("makkink_et_mm", "mm"),
    },
  })
end

local function put_de_bilt()
  local weather = de_bilt()
  local want = weather:column("reference")
  say("## De Bilt, Netherlands, 1980 to 2019: reference evaporation\n\n")
  paragraph [[Reference evaporation as the Royal Netherlands Meteorological Institute (KNMI) publishes it, by
    Makkink's formula from sun and temperature alone. Tarn's methods are other formulas; their distance from Makkink
    shows how far honest methods stand apart over forty years, not who is right. Open-water methods are compared
    with 1.25 x Makkink, the factor for open water in Dutch practice (from memory).]]
  say(HEAD)
  local open = {}
  for i, x in ipairs(want) do open[i] = 1.25 * x end
  local function run(method) return tarn.evaporation.run(weather, { method = method, area = 20, depth = 1.2 }) end
  put_errors("FAO-56 grass, Makkink", series(weather, run("grass").grass, want))
  for _, method in ipairs { "penman_1956", "penman_1948", "penman_heat", "priestley_taylor", "grass", "hargreaves" } do
    put_errors("`" .. method .. "`, 1.25 x Makkink", series(weather, run(method).open_water, open))
  end
  say("\n")
end

-- Means of a daily series by month, and its sum a year.
local function by_month(values, first)
  local sums, days, year = {}, {}, 0
  for i, x in ipairs(values) do
    local month = tonumber(os.date("!%m", (first + i - 1) * 86400 + 43200))
    sums[month], days[month], year = (sums[month] or 0) + x, (days[month] or 0) + 1, year + x
  end
  return sums, days, year
end

local function put_storage()
  local weather = de_bilt()
  local first, years = day_number(weather:first()), 40
  say("## De Bilt, Netherlands, 1980 to 2019: what stored heat changes\n\n")
  paragraph [[A model result, no measurement: evaporation of 20 m2 of open water, mm, and the water's temperature, C, by
    `penman_heat` for three depths, and Penman's formula of 1956, which knows no depth.]]
  say("| | J | F | M | A | M | J | J | A | S | O | N | D | year |\n|" .. (" --- |"):rep(14) .. "\n")
  local function row(name, method, depth)
    local run = tarn.evaporation.run(weather, { method = method, area = 20, depth = depth })
    local sums, days, year = by_month(run.open_water, first)
    say("| " .. name)
    for month = 1, 12 do say(" | %.0f", sums[month] / years) end
    say(" | %.0f |\n", year / years)
    if method ~= "penman_heat" or depth ~= 1.2 then return end
    sums = by_month(run.water, first)
    say("| water, C, 1.2 m")
    for month = 1, 12 do say(" | %.1f", sums[month] / days[month]) end
    say(" | |\n")
  end
  row("0.01 m", "penman_heat", 0.01)
  row("1.2 m", "penman_heat", 1.2)
  row("3 m", "penman_heat", 3)
  row("Penman 1956", "penman_1956", 1.2)
  say("\n")
end

return { fallon = put_fallon, de_bilt = put_de_bilt, storage = put_storage }

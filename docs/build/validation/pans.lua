-- SPDX-License-Identifier: MIT
-- Class A pans: the middle of each method and its spread between sites, and the weeks of one pan.
local text = dofile "docs/build/validation/text.lua"
local say, paragraph, column, mean, rms, SAMPLES = text.say, text.paragraph, text.column, text.mean, text.rms, text.SAMPLES

-- A guarded Class A pan -> 20 m2 of open water: without the guard x 1.07 (van Dijk 1985, from memory), pan to pond
-- 0.75 (between 0.73, Masoner and Stannard 2010, abstract, and 0.77, Shi et al. 1986, abstract).
local PAN_TO_POND = 1.07 * 0.75

local Z80 = 1.2815515655446          -- 8 times in 10 a normal number lies within (from memory)

local function sd(list)
  local centre, off = mean(list), {}
  for i, x in ipairs(list) do off[i] = x - centre end
  return math.sqrt(rms(off) ^ 2 * #list / (#list - 1))
end

-- ---- 23 stations ---------------------------------------------------------------------

local METHODS = {
  { "penman_1956", "pan_over_p56" }, { "penman_1948", "pan_over_p48" }, { "grass", "pan_over_grass" },
  { "priestley_taylor", "pan_over_pt" }, { "hargreaves", "pan_over_harg" },
}

-- Columns of the file, as lists.
local function read_ratios()
  local names, columns
  for line in io.lines(SAMPLES .. "pan_over_method.csv") do
    local cells = {}
    for cell in line:gmatch "[^,]+" do cells[#cells + 1] = cell end
    if not names then
      names, columns = cells, {}
      for _, name in ipairs(names) do columns[name] = {} end
    else
      for i, name in ipairs(names) do table.insert(columns[name], tonumber(cells[i]) or cells[i]) end
    end
  end
  return columns
end

local function put_stations()
  local columns = read_ratios()
  say("## Class A pans at %d stations\n\n", #columns.station)
  paragraph [[Observed pans of the Australian Bureau of Meteorology, 2008 to 2017, 53,054 days, over each method with the
    weather of the same station. The daily data may not be passed on; `pan_over_method.csv` has the ratios of their sums, worked
    out with other code than Tarn's. From a guarded pan to 20 m2 of open water: x 1.07 x 0.75 = 0.80 (van Dijk 1985, from memory;
    Masoner and Stannard 2010 and Shi et al. 1986, abstracts). "Tarn's middle" and its deviation are those of every
    range, weather from the garden on an open site; the last column counts the stations inside its P10 to P90.]]
  say("| method | pan / method, geometric mean | between stations, sd of ln | the pond it implies / method | "
    .. "Tarn's middle | its sd of ln | stations inside |\n| --- | --- | --- | --- | --- | --- | --- |\n")
  for _, row in ipairs(METHODS) do
    local logs, inside, centre = {}, 0, tarn.evaporation.centre(row[1])
    for i, ratio in ipairs(columns[row[2]]) do
      logs[i] = math.log(ratio)
      if math.abs(logs[i] + math.log(PAN_TO_POND / centre.median)) < Z80 * centre.sd then inside = inside + 1 end
    end
    local ratio = math.exp(mean(logs))
    say("| `%s` | %.3f | %.3f | %.2f | %.2f | %.2f | %d of %d |\n", row[1], ratio, sd(logs), ratio * PAN_TO_POND, centre.median, centre.sd,
      inside, #logs)
  end
  say("\n")
  paragraph [[The pans put the pond lower than Tarn's middle does. That middle lies between the pans and eddy covariance on a
    reservoir (Tanny et al. 2008, table 1: Penman 1948 over measured 1.24, which for 20 m2 makes 0.94 of Penman 1956), since the step
    from a pan to a pond is itself known to about a tenth. Whoever trusts pans alone multiplies by 0.9.]]
end

-- ---- one pan, week by week --------------------------------------------------------------

local WIND = { 1, 2, 3 }              -- m/s at 2 m; the file has none

local function gatton()
  return tarn.weather.read(SAMPLES .. "gatton_daily_1990.csv", {
    layout = "none", latitude = -27.54, elevation = 90, wind_height = 2,
    columns = {
      tmin = column("tmin_c", "C"), tmax = column("tmax_c", "C"), vapour = column("vapour_pressure_hpa", "hPa"),
      solar = column("solar_mj_m2", "MJ/m2"), rain = column("rain_mm", "mm"), pan = column("pan_mm", "mm"),
    },
  })
end

local WET = 20                        -- mm of rain in a week: the pan's reading then holds an error of the gauge

-- ln(pan / method) of whole weeks of seven days from the first; those of little rain alone.
local function weeks_of(pan, got, rain)
  local list, dry = {}, {}
  for first = 1, #pan - 6, 7 do
    local a, b, fell = 0, 0, 0
    for i = first, first + 6 do a, b, fell = a + pan[i], b + got[i], fell + rain[i] end
    list[#list + 1] = math.log(a / b)
    if fell < WET then dry[#dry + 1] = list[#list] end
  end
  return list, dry
end

-- How many lie within P10 to P90 of a normal number about their mean.
local function count_inside(list, deviation)
  local middle, inside = mean(list), 0
  for _, x in ipairs(list) do
    if math.abs(x - middle) < Z80 * deviation then inside = inside + 1 end
  end
  return inside
end

local function days_of(pan, got)
  local list = {}
  for i, x in ipairs(pan) do list[i] = x / got[i] end
  local centre = mean(list)
  for i, x in ipairs(list) do list[i] = x / centre - 1 end
  return rms(list)
end

local function put_gatton()
  local weather = gatton()
  local pan = weather:column("pan")
  say("## A pan by its weeks: Gatton, Queensland\n\n")
  paragraph [[An observed Class A pan with the sun, temperatures and vapour pressure of its station, 122 days from 1 January 1990
    (University of Queensland Gatton, 040082; SILO, State of Queensland, CC BY 4.0). The file has no wind: three are tried. Ranges give a
    week about a site's own mean the deviation sqrt(slow^2 + day^2 / 7), of which 8 weeks in 10 lie in P10 to P90. Dry: under 20 mm of rain in
    the week; in others the pan's reading has the error of the rain gauge too.]]
  say("| method | wind, m/s | pan / method | days, relative sd | weeks, sd of ln | inside | dry weeks, sd of ln | inside | Tarn's sd |\n")
  say("| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n")
  local rain = weather:column("rain")
  for _, method in ipairs { "penman_1956", "grass" } do
    local wanted = math.sqrt(tarn.evaporation.centre(method).slow_sd ^ 2 + 0.25 ^ 2 / 7)
    for _, wind in ipairs(WIND) do
      local run = tarn.evaporation.run(weather, { method = method, area = 20, depth = 1.2, default_wind = wind })
      local weeks, dry = weeks_of(pan, run.open_water, rain)
      say("| `%s` | %g | %.2f | %.2f | %.3f | %d of %d | %.3f | %d of %d | %.3f |\n", method, wind, math.exp(mean(weeks)),
        days_of(pan, run.open_water), sd(weeks), count_inside(weeks, wanted), #weeks, sd(dry), count_inside(dry, wanted), #dry, wanted)
    end
  end
  say("\n")
end

return { stations = put_stations, gatton = put_gatton }

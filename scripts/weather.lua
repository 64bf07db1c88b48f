-- SPDX-License-Identifier: MIT
-- weather: whether a weather file is usable: columns, gaps, least, mean, most
local args = require "common.args"
local doubts = require "common.doubts"
local findings = require "common.findings"
local inputs = require "common.inputs"
local new_page = require "common.page"
local text = require "common.text"
local view_of = require "common.view"

local spec = {
  usage = "tarn weather WEATHER.csv [options]",
  purpose = "What a weather file holds, and what Tarn can do with it.",
  positions = { { name = "WEATHER.csv", key = "weather", meaning = "daily weather" } },
  options = inputs.with_weather {
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the table (metric)" },
  },
}

local asked = args.read(spec)
local weather = inputs.raw_weather(asked.weather, asked)
if asked.first or asked.last then weather = inputs.hinted(asked.weather, weather.slice, weather, asked.first, asked.last) end
-- The table that the other commands run; nil where the gaps are too many.
local made, ready = inputs.tried(inputs.ready, asked.weather, weather, asked)
ready = made and ready or nil
local site = weather:site()

local function coordinate(x, unit)
  return x and ("%.4g %s"):format(x, unit) or "not known"
end

local ORDER = { "tmin", "tmax", "tmean", "rh_min", "rh_max", "rh_mean", "dewpoint", "vapour", "wind", "sunshine",
  "solar", "rain", "pan", "reference", "open_water", "pressure" }
local rows, summary = {}, weather:summary()

-- Unit of a column for the reader, and the conversion to it.
local function reader_unit(name, unit)
  local us = asked.units == "us"
  if us and unit == "deg C" then return "deg F", tarn.units.fahrenheit end
  if us and unit == "mm" then return "in", function(x) return x / 25.4 end end
  if us and unit == "m/s" then return "mph", function(x) return x / tarn.units.mph end end
  return unit, function(x) return x end
end

local NEEDED = "where the method needs it, --bridge DAYS bridges short gaps"
-- What is done about a gap.
local GAPS = {
  rain = "--dry-gaps takes them as dry, --totals assigns totals of several days",
  tmin = "up to 3 days are bridged, --bridge DAYS bridges more", tmax = "up to 3 days are bridged, --bridge DAYS bridges more",
  pan = NEEDED, reference = NEEDED, open_water = NEEDED,
}

-- What stands between this weather and a ledger.
local function obstacles()
  local list, f = {}, summary
  local function add(...) list[#list + 1] = string.format(...) end
  local given = f.open_water or f.reference or f.pan
  if not f.rain then add("there is no rain: the ledger needs it (0 on dry days)") end
  if not (f.tmin and f.tmax) and not given then
    add("lowest and highest temperature (tmin, tmax) are needed, a mean alone is not enough")
  end
  if f.tmin and f.tmax and not site.latitude then
    add("the latitude is not known: --latitude DEG, or latitude in the pond's evaporation section")
  end
  for _, name in ipairs(ORDER) do
    if f[name] and f[name].missing > 0 then
      add("%s is missing on %s: %s", name, f[name].missing == 1 and "1 day" or f[name].missing .. " days", GAPS[name] or
        "estimated for each of them, where the method uses it")
    end
  end
  return list
end

local methods = tarn.evaporation.methods(ready or weather, { area = 10, depth = 1 })
local list = obstacles()
-- Those that 'auto' chooses from.
local usable = false
for _, name in ipairs(methods) do
  usable = usable or name == "penman_1956" or name == "given" or name == "given_reference" or name == "pan"
end
local runs = ready ~= nil and usable and summary.rain ~= nil

local CAN = "Can a ledger be run on it?"
local page = new_page(asked.weather)
local found = {}
if not runs then findings.add(found, "forbids", "No ledger can be run on this file as it stands.", { CAN }) end
doubts.add(found, ready or weather, view_of(asked.units or "metric"))
page:found(found)
page:paragraph(("%d days, %s to %s."):format(weather:days(), weather:first(), weather:last()))
page:paragraph(("Station: %slatitude %s, elevation %s, height of the wind gauge %s."):format(
  site.name and site.name ~= "" and site.name .. ", " or "", coordinate(site.latitude, "deg"),
  coordinate(site.elevation, "m"), coordinate(site.wind_height, "m")))

for _, name in ipairs(ORDER) do
  local s = summary[name]
  if s then
    local unit, convert = reader_unit(name, s.unit)
    local function cell(x) return x and ("%.4g"):format(convert(x)) or "-" end
    rows[#rows + 1] = { name, unit, text.number(s.present), text.number(s.missing),
      cell(s.min), cell(s.mean), cell(s.max) }
  end
end
page:table({ "Column", "Unit", "Days", "Missing", "Least", "Mean", "Most" }, rows)
page:paragraph("Do these figures fit the place? A wrong unit shows here.")

page:heading(CAN)
if runs then
  page:paragraph("Yes: tarn topup POND.lua " .. asked.weather)
else
  page:paragraph("Not as it stands:")
end
page:list(list)
if #methods > 0 then
  page:paragraph("Methods of evaporation that it allows: " .. table.concat(methods, ", ") .. ".")
end
if #weather:notes() > 0 then
  page:heading("Notes")
  page:list((ready or weather):notes())
end
page:print()
return page.status

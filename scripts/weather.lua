-- SPDX-License-Identifier: MIT
-- weather: whether a weather file is usable: columns, gaps, least, mean, most
local answers = require "common.answers"
local args = require "common.args"
local doubts = require "common.doubts"
local findings = require "common.findings"
local inputs = require "common.inputs"
local new_page = require "common.page"
local outputs = require "common.outputs"
local text = require "common.text"
local trial = require "common.trial"
local view_of = require "common.view"
local cleaned = require "weather.cleaned"
local climates = require "weather.climates"

local spec = {
  usage = "tarn weather WEATHER.csv [MORE.csv ...] [options]",
  purpose = "What a weather file holds, and what Tarn can do with it.",
  positions = { { name = "WEATHER.csv", key = "weather", unless = "climates", more = "with",
    meaning = "daily weather; more files of the same station behind it, as by --with" } },
  options = inputs.with_years {
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the table (metric)" },
    { name = "climates", meaning = "list the climates that --climate of other commands draws days from" },
    { name = "write", value = "FILE", kind = "output", meaning = "write the days that are run, in Tarn's own plain layout" },
  },
}

local asked = args.read(spec)
if asked.climates then return outputs.finish(climates(asked.units or "metric"), {}) end
local file, weather = inputs.examined(asked.weather, asked)
local raw = weather           -- the trial reads the days that are asked for out of it
if asked.first or asked.last then weather = inputs.hinted(asked.weather, weather.slice, weather, asked.first, asked.last) end
-- The table that the other commands run; nil where the gaps are too many.
local made, ready = inputs.tried(inputs.ready, asked.weather, weather, answers.with(asked, { first = false, last = false }))
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
  if not f.rain then add("%s", inputs.no_rain(file)) end
  if not (f.tmin and f.tmax) and not given then
    add("lowest and highest temperature (tmin, tmax) are needed, a mean alone is not enough; where other files of the station have them, say --with FILE")
  end
  for _, name in ipairs(ORDER) do
    if f[name] and f[name].missing > 0 then
      add("%s is missing on %s: %s", name, f[name].missing == 1 and "1 day" or f[name].missing .. " days", GAPS[name] or
        "estimated for each of them, where the method uses it")
    end
  end
  return list
end

-- The place is needed for the sun, and for that alone.
local place_known = site.latitude or not (summary.tmin and summary.tmax)
local unknown = {}              -- of the place, as options to be filled in
if not place_known then
  unknown[1] = "--latitude DEG"
  if not site.elevation then unknown[2] = "--elevation LENGTH" end
  if summary.wind and not site.wind_height then unknown[#unknown + 1] = "--wind-height LENGTH" end
end
local lines, why = trial.lines(asked.weather, raw, asked, place_known)
local methods = tarn.evaporation.methods(ready or weather,
  { area = 10, depth = 1, latitude = not site.latitude and trial.LATITUDE or nil })
local list = obstacles()
local runs = #lines > 0

-- What is not known of the place, where to find it, what is taken without it.
local function place()
  local out = {}
  if not place_known then
    out[1] = ("The latitude is not known, any map shows it (north positive). The line was tried with %d in place of DEG."):format(
      trial.LATITUDE)
  end
  if not site.elevation then out[#out + 1] = "The elevation above the sea is not known, 0 m is taken: --elevation '400 ft' or 122, which is m." end
  if summary.wind and not site.wind_height then
    out[#out + 1] = "The height of the wind gauge is not known, 10 m is taken: --wind-height. At airports it is 10 m, at farm stations 2 m (common practice, no source)."
  end
  if #out > 0 then
    out[#out + 1] = "A pond's evaporation section may have latitude, elevation and wind_height; then the command needs no more than the two files."
  end
  return out
end

local ENCODINGS = { bytes = "UTF-8 or the like", ["UTF-16"] = "UTF-16", ["Windows-1252"] = "Windows-1252" }
local DELIMITERS = { [","] = "commas", [";"] = "semicolons", ["\t"] = "tabs" }
local SAID = { given = "you", header = "the header", unit_row = "the row of units", layout = "the layout", values = "the values" }

-- The shape of the file, in a sentence or two.
local function how_read()
  return ("Text in %s, %s between values, decimal %s; layout %s; %s. %s rows, %s."):format(ENCODINGS[file.encoding],
    DELIMITERS[file.delimiter] or ("'%s'"):format(file.delimiter), file.decimal == "," and "commas" or "points", file.layout,
    file.date and ("dates from %s as %s"):format(file.date, file.date_format) or "dates as the layout has them", text.number(file.rows),
    file.rows_a_day > 0 and ("%d of them a day"):format(file.rows_a_day) or "a row a day")
end

-- Where each column came from.
local function sources()
  local rows = {}
  for _, c in ipairs(file.columns) do
    if c.first or c.index > 0 then rows[#rows + 1] = { c.name, c.from or "-", c.file_unit or "-", SAID[c.unit_from] or "-", c.first or "-", c.last or "-",
      c.longest_gap > 0 and text.number(c.longest_gap) or "none" }
    end
  end
  return rows
end

local CAN = "Can a ledger be run on it?"
local page = new_page(asked.weather)
local found = {}
if not runs then findings.add(found, "forbids", "No ledger can be run on this file as it stands.", { CAN }) end
doubts.add(found, ready or weather, view_of(asked.units or "metric"))
page:found(found)
page:paragraph(("%d %s, %s to %s."):format(weather:days(), weather:days() == 1 and "day" or "days", weather:first(), weather:last()))
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

page:heading("What each column was taken for")
page:paragraph(how_read())
if asked.with then
  page:paragraph(("With %s, of the same station; the table is that of the first file."):format((asked.with:gsub(",", ", "))))
end
page:table({ "Column", "In the file", "Unit", "Said by", "First", "Last", "Longest gap" }, sources())

page:heading(CAN)
if runs then
  for i, line in ipairs(lines) do
    page:paragraph(i == 1 and "Yes: this line was tried, with a plain pond, and runs %s of %s days:" or
      "To run more of them, %s of %s, which was tried too:", text.number(line.days), text.number(line.days + line.left_out))
    page:code(trial.command(asked.weather, line.options, unknown) .. "\n")
  end
  local complete = ready and doubts.complete(ready)
  if complete then
    page:paragraph("To run the years that have all columns alone, %s, which was tried too:", text.number(complete.days))
    page:code(trial.command(asked.weather, setmetatable({ years = "complete" }, { __index = asked }), unknown) .. "\n")
  end
  page:list(place())
else
  page:paragraph("Not as it stands: " .. (why or "there is no day to run"))
  local tried = trial.tried(asked)
  if tried ~= "" then page:paragraph("Tried, and none of them helps: " .. tried .. ".") end
end
page:list(list)
if #methods > 0 then
  page:paragraph("Methods of evaporation that it allows: " .. table.concat(methods, ", ") .. ".")
end
if #weather:notes() > 0 then
  page:heading("Notes")
  page:list((ready or weather):notes())
end
return outputs.finish(page, {
  { asked.write, function()
    if not ready then tarn.mistake(asked.weather .. ": no day of it can be run, so that there is nothing to write") end
    return cleaned(asked.weather, ready)
  end, "The daily weather in Tarn's own layout" },
})

-- SPDX-License-Identifier: MIT
-- leak: is a falling level normal? a ruler log, a meter or a bucket against the weather
local args = require "common.args"
local doubts = require "common.doubts"
local findings = require "common.findings"
local inputs = require "common.inputs"
local new_page = require "common.page"
local outputs = require "common.outputs"
local screen = require "common.screen"
local view_of = require "common.view"
local figures = require "leak.figures"
local log = require "leak.log"
local pair = require "leak.pair"
local paper = require "leak.paper"
local rates = require "leak.rates"


local spec = {
  usage = "tarn leak POND.lua WEATHER.csv LOG.csv [options], or tarn leak [POND.lua] --off-hours ..., or tarn leak [POND.lua] --sheet FILE.html",
  purpose = "Is a falling level normal? Weighs a log of levels, or a bucket test, against the weather.",
  positions = {
    { name = "POND.lua", key = "pond", meaning = "description of the pond", optional = true },
    { name = "WEATHER.csv", key = "weather", meaning = "daily weather of the log's days", optional = true },
    { name = "LOG.csv", key = "log", meaning = "date, time, reading_in (or _mm, ...), meter_gal, note", optional = true },
  },
  options = inputs.with_weather {
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the report and of the numbers below: in, ft2 or mm, m2 (us)" },
    inputs.method_option,
    { name = "svg", value = "FILE", kind = "output", meaning = "draw logged level and modelled band" },
    { name = "report", value = "FILE", kind = "output", meaning = "write the report as one HTML file, with pictures" },
    screen.option "weeks, intervals, calibration, method and assumptions",
    { name = "intervals", meaning = "with --full: list every interval of the log" },
    { name = "sheet", value = "FILE", kind = "output", meaning = "write a page (HTML) to print and to write readings on; POND.lua is enough" },
    { name = "zero", value = "LENGTH", kind = "length", meaning = "level of the ruler's zero above the floor, as '39 in' or 0.99, which is m (the lip; a ruler that counts up: the floor)" },
    { name = "hour", value = "H", kind = "number", meaning = "of readings without a time (8)" },
    { name = "reading-error", value = "N", kind = "number", meaning = "of one reading, in or mm (1/16 in)" },
    { name = "matters", value = "N", kind = "number", meaning = "a loss worth searching for, in or mm a day (1/8 in)" },
    { name = "log-unit", value = "NAME", meaning = "inch, mm, cm, ft, m where the heading does not say it" },
    { name = "log-sign", value = "NAME", meaning = "down or up, where the heading is wrong" },
    { name = "log-dates", value = "NAME", meaning = "ymd, mdy or dmy (ymd)" },
    { name = "set-aside-rises", meaning = "go on where a rise has no rain and no note" },
    { name = "off-hours", value = "H", kind = "number", meaning = "bucket test, pump off: hours between the readings" },
    { name = "off-drop", value = "N", kind = "number", meaning = "fall of the pond, in or mm" },
    { name = "off-bucket", value = "N", kind = "number", meaning = "fall in the bucket, in or mm" },
    { name = "off-rain", value = "N", kind = "number", meaning = "rain meanwhile, in or mm: voids the test" },
    { name = "on-hours", value = "H", kind = "number", meaning = "the same with the pump on" },
    { name = "on-drop", value = "N", kind = "number", meaning = "" },
    { name = "on-bucket", value = "N", kind = "number", meaning = "" },
    { name = "on-rain", value = "N", kind = "number", meaning = "" },
    { name = "evaporation", value = "N", kind = "number", meaning = "open water, in or mm a day, where no bucket stood" },
    { name = "area", value = "N", kind = "number", meaning = "open water, ft2 or m2, instead of POND.lua" },
    { name = "bed", value = "N", kind = "number", meaning = "area of the planted bed beside it" },
    { name = "stream", value = "N", kind = "number", meaning = "wetted area of stream and falls beside it" },
  },
  more = "The log and the bucket test can be given together. Nothing here says 'leak' from weather alone.",
}

-- ---- main ---------------------------------------------------------------------------------

local asked = args.read(spec)
asked.stretch = true            -- the fit goes by the index of a day
local view = view_of(asked.units or "us")
local matters = asked.matters and rates.depth_of(view, asked.matters) * 1000
local paired = pair.asked(asked)
if paired then pair.check(asked) end
local pond, description, place, _
if asked.pond then
  pond, description, _, _, place = inputs.pond(asked.pond)
elseif paired then
  pond = pair.plain_pond(asked, view)
end
local function sheet() return paper(description and (description.name or asked.pond) or "A pond", description and pond, view) end
local SHEET = "The sheet for readings"
if asked.sheet and not asked.weather and not paired then
  outputs.write(asked.sheet, sheet()):write(asked.sheet == "-" and "" or SHEET .. " is in " .. tarn.visible(asked.sheet) .. "\n")
  return
end
if not pond or (asked.weather and not asked.log) or (not asked.log and not paired) then
  tarn.mistake("give POND.lua WEATHER.csv LOG.csv, or the readings of a bucket test; usage: " .. spec.usage)
end
if asked.svg and not asked.log then tarn.mistake("--svg draws a log: give WEATHER.csv and LOG.csv") end

-- The weather that is run; where a gap far from the log would take the log's days away, those days.
local function weather_of(record)
  local raw, readings = inputs.raw_weather(asked.weather, asked), record:readings()
  local weather, done = inputs.ready(asked.weather, raw, asked, description)
  local first, last = readings[1].date, readings[#readings].date
  if done.left_out == 0 or asked.first or asked.last or (weather:first() <= first and weather:last() >= last) then return weather end
  asked.first = first > raw:first() and first <= raw:last() and first or nil
  asked.last = last < raw:last() and last >= raw:first() and last or nil
  return (inputs.ready(asked.weather, raw, asked, description))
end

-- The fit of the log that the command line names.
local function fit_of()
  local record = tarn.log.read(asked.log, { unit = asked.log_unit, sign = asked.log_sign, dates = asked.log_dates })
  local job = { pond = pond, info = record:info(), weather = weather_of(record) }
  job.leak = tarn.leak {
    pond = pond, weather = job.weather, log = record, method = asked.method,
    zero = asked.zero, hour = asked.hour, matters = matters, reading_error = rates.depth_of(view, asked.reading_error),
    unnoted = asked.set_aside_rises and "set_aside" or nil,
  }
  job.r, job.intervals, job.advice = job.leak:result(), job.leak:intervals(), job.leak:advice()
  job.matters = job.leak:options().matters
  return job
end

local job, test = asked.log and fit_of(), paired and pair.of(asked, view, pond, matters)
matters = (job or test).matters
local title = description and (description.name or asked.pond) or "A pond"
local lip = pond:facts().overflow_level
local function level() return figures.level(job.leak:path(), lip, view, title) end

local function found()
  local list = findings.of(view, job and job.leak:findings() or {}, test and test.findings or {})
  if place then doubts.add_pond(list, pond, view, pond:findings(), place) end
  if job then doubts.add(list, job.weather, view) end
  return list
end

local function put_losses(page)
  local losses = job and log.losses(job) or {}
  if test then table.move(pair.losses(test), 1, 3, #losses + 1, losses) end
  if #losses == 0 then return end
  page:figure(function() return figures.losses(losses, matters / 1000 * (job and job.r.area or pond:facts().full_area), view) end,
    "Unexplained loss, with its 90 % interval")
end

local function full()
  local page = new_page(title)
  page:found(found())
  if job then
    log.answer(page, job, view)
    doubts.choices(page, job.weather)
    page:figure(level, "The level as logged, and what weather explains from each stretch's first reading",
      { plot = function() return figures.level_plot(job.leak:path(), lip, view) end })
  else
    pair.answer(page, test)
  end
  put_losses(page)
  if job then log.put(page, job, view, asked) end
  if test then pair.put(page, view, test) end
  page:heading("Cautions")
  page:list {
    "From weather alone nobody can say that a pond leaks. Ten percent of a hot day's evaporation is as much as many a leak.",
    "While the pump is off fish and filter lack air: use an air pump, and stop the test if fish gasp.",
    "Switch off and unplug before reaching into the water; leave wiring to licensed people.",
  }
  return page
end

-- One screen, where not all is asked for.
local function short()
  local page = new_page(title)
  page:found(found())
  if description then page:paragraph("%s", screen.pond(pond, view)) end
  if job then
    log.answer(page, job, view)
    doubts.choices(page, job.weather)
    log.next(page, job)
  else
    pair.answer(page, test)
  end
  if test then pair.put(page, view, test) end
  screen.close(page, "From weather alone nobody can say that a pond leaks. While the pump is off fish lack air: use an air pump. Unplug before reaching into the water; wiring is a licensed electrician's.",
    "--full prints " .. (job and "weeks, intervals, calibration, method and assumptions" or "all cautions") .. "; --report FILE.html has it with pictures.")
  return page
end

local page, whole = outputs.pages(asked.full or asked.intervals, full, short)
return outputs.finish(page, {
  { asked.svg, level, "The figure" },
  { asked.sheet, sheet, SHEET },
  { asked.report, function() return whole():html(outputs.sources(asked.pond, asked.log, asked.map)) end, "The report with pictures" },
})

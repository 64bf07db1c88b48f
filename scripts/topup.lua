-- SPDX-License-Identifier: MIT
-- topup: weekly top-up water of a pond, its cost, a dry year's, from weather
local args = require "common.args"
local climate = require "common.climate"
local doubts = require "common.doubts"
local findings = require "common.findings"
local inputs = require "common.inputs"
local ledger_csv = require "common.ledger_csv"
local methods = require "common.methods"
local new_page = require "common.page"
local outputs = require "common.outputs"
local ranges = require "common.ranges"
local screen = require "common.screen"
local view_of = require "common.view"
local beside = require "topup.beside"
local brief = require "topup.brief"
local figures = require "topup.figures"
local questions = require "topup.questions"
local sections = require "topup.sections"

local spec = {
  usage = "tarn topup POND.lua WEATHER.csv [options]",
  purpose = "How much water a pond needs, week by week, on real weather.",
  positions = {
    { name = "POND.lua", key = "pond", meaning = "description of the pond" },
    climate.position,
  },
  options = inputs.with_years {
    climate.option,
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the report (us)" },
    inputs.method_option,
    { name = "start-level", value = "M", kind = "number", meaning = "level on the first morning, m above the floor" },
    { name = "down", value = "LENGTH", kind = "length", meaning = "how far below full the water is today, as '2 1/2 in': how long it lasts from there" },
    screen.option "weeks, months, years, methods, levels and assumptions",
    { name = "all-weeks", meaning = "with --full: list every week, however many" },
    { name = "csv", value = "FILE", kind = "output", meaning = "write the daily ledger (SI units), whole or not at all" },
    { name = "ranges", value = "FILE", kind = "output", meaning = "write the ranges as CSV (m3)" },
    { name = "report", value = "FILE", kind = "output", meaning = "write the report as one HTML file, with pictures" },
  },
}

local WEEKS_LISTED = 60       -- more than a year's are summed up instead

-- ---- what is computed -------------------------------------------------------

local function compute(pond, weather, asked, located)
  local options = {
    start_level = asked.start_level, method = asked.method,
  }
  local ledger = inputs.hinted(inputs.weather_name(asked), pond.run, pond, weather, options)
  local job = {
    pond = pond, weather = weather, ledger = ledger, run_options = options, checks = located(pond.findings, pond), facts = pond:facts(),
    totals = ledger:totals(), weeks = ledger:weeks(), months = ledger:months(),
    years = ledger:years(), report = ledger:report(), season = tarn.season(ledger),
  }
  job.from = asked.down and job.facts.overflow_level - asked.down
  if job.from and not (asked.down >= 0 and job.from > (job.facts.intake or 0)) then
    tarn.mistake(("--down must be from 0 to %.4g m, the depth of the intake below full, got %.4g m"):format(
      job.facts.overflow_level - (job.facts.intake or 0), asked.down))
  end
  job.forecast, job.no_range = ranges.of(pond, weather, options)
  local later = {}              -- what takes long is computed where it is first said
  function later.band()
    local band = methods(pond, weather, options, ledger)
    for _, other in ipairs(band) do other.a_week = tarn.season(other.ledger).a_week end
    return band
  end
  function later.days() return ledger:days() end
  function later.absence()
    if not job.facts.intake then return false end
    local days = pond:endurance(weather, { method = asked.method, start_level = job.from })
    return tarn.absence(days, job.totals.first)
  end
  return setmetatable(job, { __index = function(self, name)
    if later[name] then self[name] = later[name]() end
    return rawget(self, name)
  end })
end

-- ---- what is said -----------------------------------------------------------

-- All that was found, before anything else is said.
local function found(job, view)
  local list = findings.of(view, findings.levels(job.checks), job.pond:ledger_findings(job.ledger))
  doubts.add_pond(list, job.pond, view, job.checks, job.place)
  doubts.add(list, job.weather, view)
  return list
end

local function report(job, view, asked, title)
  local page, listed = new_page(title), #job.weeks <= WEEKS_LISTED
  local function draw(figure) return function() return figure(job, view) end end
  page:found(found(job, view))
  sections.answer(page, job, view)
  doubts.choices(page, job.weather)
  if not listed then page:figure(draw(figures.typical_weeks), "Top-up by week of the year: the middle, and P10 to P90") end
  page:figure(draw(figures.time), "Level of the pond, and top-up " .. figures.step(job), { plot = draw(figures.time_plot) })
  beside.warnings(page, job, view)
  if listed or asked.all_weeks then sections.weeks(page, job, view) end
  if listed then sections.week_bars(page, job, view) else sections.typical_weeks(page, job, view) end
  sections.months(page, job, view)
  beside.power(page, job, view)
  page:figure(draw(figures.balance), "What comes in and what goes out, by month")
  sections.years(page, job, view)
  if job.forecast then ranges.worth(page, job.forecast) end
  sections.methods(page, job, view)
  beside.pond(page, job, view)
  beside.pump(page, job, view)
  beside.endurance(page, job, view)
  questions.put(page, job, view)
  beside.assumptions(page, job, view)
  beside.cautions(page)
  return page
end

local asked = args.read(spec)
local view = view_of(asked.units or "us")
local pond, description, _, located, place = inputs.pond(asked.pond)
local weather = inputs.weather(asked.weather, asked, description)
local job = compute(pond, weather, asked, located)
job.place = place
local mark, title = climate.mark(weather), description.name or asked.pond
local function full() return report(job, view, asked, title) end

-- One screen, where not all is asked for.
local function short()
  local page = new_page(title)
  page:found(found(job, view))
  brief(page, job, view, "--full prints weeks, months, years, methods and assumptions; --report FILE.html has them with pictures.")
  return page
end

local page, whole = outputs.pages(asked.full or asked.all_weeks, full, short)
return outputs.finish(page, {
  { asked.csv, function() return mark .. ledger_csv(job.ledger, job.days) end, "The daily ledger (SI units, see docs/ledger-csv.md)" },
  { asked.ranges, function() return mark .. ranges.csv(job.forecast, job.no_range) end, "The ranges (m3, see docs/ledger-csv.md)" },
  { asked.report, function() return whole():html(outputs.sources(asked.pond, asked.map)) end, "The report with pictures" },
})

-- SPDX-License-Identifier: MIT
-- sheet: the hand-over sheet of a pond, from its description and real weather
local args = require "common.args"
local bed_plan = require "bed.plan"
local climate = require "common.climate"
local doubts = require "common.doubts"
local findings = require "common.findings"
local inputs = require "common.inputs"
local losses = require "common.losses"
local money = require "common.money"
local new_page = require "common.page"
local outputs = require "common.outputs"
local ranges = require "common.ranges"
local screen = require "common.screen"
local text = require "common.text"
local view_of = require "common.view"
local care = require "sheet.care"
local drawings = require "sheet.drawings"
local materials = require "sheet.materials"
local water = require "sheet.water"

local spec = {
  usage = "tarn sheet POND.lua WEATHER.csv [options]",
  purpose = "The sheet that a builder hands over: levels, flows, a normal week by month, quantities, care.",
  positions = {
    { name = "POND.lua", key = "pond", meaning = "description of the pond" },
    climate.position,
  },
  options = inputs.with_years {
    climate.option,
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the sheet (us)" },
    inputs.method_option,
    screen.option "what runs, overflow and storm, care, calendar and assumptions",
    { name = "markdown", value = "FILE", kind = "output", meaning = "write the sheet as Markdown too" },
    { name = "drawings", value = "PREFIX", kind = "prefix", ends = { "section.svg", "levels.svg" }, meaning = "write PREFIX-levels.svg and PREFIX-section.svg; a folder if it ends in /" },
    { name = "materials", meaning = "print all of the sheet, with the quantities" },
    { name = "csv", value = "FILE", kind = "output", meaning = "write the quantities, with pipes and fittings" },
    { name = "report", value = "FILE", kind = "output", meaning = "write the sheet as one HTML file, with pictures" },
  },
}

-- The levels that the sheet shows, from the top: a storm that runs over the edge
-- has no level, and a start none where nothing tops up.
local function chart_of(pond, located)
  local chart, facts, top = located(pond.chart, pond), pond:facts(), pond:basin():top()
  for i = #chart, 1, -1 do
    local l = chart[i]
    if (l.name == "storm" and l.level > top) or (l.name == "start" and not facts.trigger) then table.remove(chart, i) end
  end
  for i, l in ipairs(chart) do l.between = l.volume - (chart[i + 1] and chart[i + 1].volume or 0) end
  return chart
end

-- The bed as `tarn bed` judges it; nil where it has no size, or cannot be judged.
local function judged_bed(pond, description, located)
  if pond:facts().bed_area == 0 then return nil end
  local judged, bed = inputs.tried(bed_plan.of, pond, description, located)
  return judged and bed or nil
end

-- All that was found, before anything else is said.
local function found(job, view)
  local list = findings.of(view, job.checks, job.pond:ledger_findings(job.ledger), job.bed and job.bed.checks or {})
  doubts.add_pond(list, job.pond, view, job.checks, job.place)
  doubts.add(list, job.weather, view)
  return list
end

-- Everything that the sections speak of.
local function gather(asked)
  local pond, description, _, located, place = inputs.pond(asked.pond)
  local weather = inputs.weather(asked.weather, asked, description)
  local job = {
    pond = pond, description = description, weather = weather, weather_path = inputs.weather_name(asked):match("[^/]*$"), name = description.name or "Pond",
    facts = pond:facts(), works = pond:works(), chart = chart_of(pond, located),
    storm = located(pond.storm, pond), profile = pond:profile(),
  }
  job.at = {}               -- level by name
  for _, level in ipairs(job.chart) do job.at[level.name] = level.level end
  if description.build then
    job.takeoff = located(pond.takeoff, pond)
  else                      -- a basin given by areas has no sizes for it
    local ok, takeoff = inputs.tried(pond.takeoff, pond)
    job.takeoff = ok and takeoff or nil
  end
  job.water = job.takeoff and job.takeoff.water or job.facts.full_volume
  job.checks, job.place = located(pond.findings, pond), place
  job.bed = judged_bed(pond, description, located)
  local options = { method = asked.method }
  job.ledger = inputs.hinted(inputs.weather_name(asked), pond.run, pond, weather, options)
  job.forecast, job.no_range = ranges.of(pond, weather, options)
  job.totals, job.season = job.ledger:totals(), tarn.season(job.ledger)
  local e = description.evaporation or {}
  job.south = (e.latitude or weather:site().latitude or 1) < 0
  job.frost = tarn.frost(weather, job.south)
  job.span = inputs.span(weather, job.totals.first, job.totals.last)
  job.note = ("Estimate by tarn %s, weather %s. Local codes rule."):format(tarn.version, job.span)
  return job
end

local function power(job)
  local pump, costs = job.description.pump or {}, job.description.costs or {}
  if not (pump.watts or (pump.amps and pump.volts)) then return nil end
  local hours = 0           -- of a mean year
  for month = 1, 12 do
    local h = type(pump.hours) == "table" and pump.hours[month] or pump.hours or 24
    hours = hours + h * tarn.usual_days(month)
  end
  return tarn.flow.running_cost { watts = pump.watts, amps = not pump.watts and pump.amps or nil,
    volts = not pump.watts and pump.volts or nil, hours_per_day = hours / 365.25, price = costs.power }
end

local function put_glance(page, job, view, whole)
  local f, t, costs, lines = job.facts, job.totals, job.description.costs or {}, {}
  local function add(...) lines[#lines + 1] = string.format(...) end
  local at = f.target or f.trigger or f.overflow_level
  local step = view.name == "us" and { "inch", tarn.units.inch } or { "centimetre", tarn.units.cm }
  local stone = f.full_volume - job.water
  add("Water: %s at the overflow (%s), %s surface; one %s of level is %s.", view:show("volume", job.water),
    stone > 1e-6 and ("basin %s, less %s of stone described"):format(view:show("volume", f.full_volume), view:show("volume", stone))
      or "the whole basin, no stone described", view:show("area", f.full_area), step[1], view:show("volume", job.pond:basin():area(at) * step[2]))
  if job.works.flow then add("Pump: %s.", view:show("flow", job.works.flow)) end
  local run = power(job)
  if run then
    add("Power: %.0f W%s, %.1f kWh a day%s.", run.power, job.description.pump.watts and "" or " at most (amps x volts)", run.kwh_day,
      run.cost_year and (", %s %s a year"):format(text.number(run.cost_year, 0), costs.currency or "") or "")
  end
  if job.forecast and ranges.some(job.forecast) then
    for _, sentence in ipairs(ranges.usual(job.forecast, view)) do lines[#lines + 1] = sentence end
  else
    local topup = job.season.a_year
    add("Top-up: %s a year%s.", view:show("volume", topup), money.behind(job.description, topup))
  end
  if whole then lines[#lines + 1] = losses.said(t) end
  page:list(lines)
end

local function compose(job, view, figures)
  local page = new_page(job.name .. ": hand-over sheet")
  page:found(found(job, view))
  put_glance(page, job, view, true)
  doubts.choices(page, job.weather)
  page:paragraph(job.note)
  for _, figure in ipairs(figures) do
    page:figure(figure.draw, figure.meaning, { path = figure.shown, natural = true })
  end
  water.levels(page, job, view)
  water.running(page, job, view)
  water.overflow(page, job, view)
  care.year(page, job, view)
  if job.forecast then
    page:figure(function() return drawings.year(job, view) end,
      "Drop of the level in a week, by the losses alone: P10 to P90, and where to look and to act")
  end
  care.worry(page, job, view)
  care.topup(page, job, view)
  care.winter(page, job, view)
  care.calendar(page, job)
  if job.with_materials then materials.section(page, job, view) end
  care.assumptions(page, job, view)
  care.cautions(page)
  return page
end

-- One printed page, where not all is asked for.
local function short(job, view)
  local page = new_page(job.name .. ": hand-over sheet")
  page:found(found(job, view))
  page:paragraph("%s", screen.pond(job.pond, view))
  put_glance(page, job, view)
  doubts.choices(page, job.weather)
  water.few_levels(page, job, view)
  care.year(page, job, view, true)
  page:list { water.move(job, view), care.reading(job, view) }
  screen.close(page, "Children drown in inches of water; trenches cave in; stacked stone and wet banks are walls, which many codes leave to engineers; wiring is a licensed electrician's; fill through an air gap. This sheet designs no structure; local codes and licensed practice rule.",
    "--full prints what runs, storm, care, calendar (--materials: quantities); --report FILE.html has drawings.")
  return page
end

-- ---- where a figure lies ---------------------------------------------------------

-- Folders and name of a path, from the root.
local function parts_of(path)
  local list = {}
  if path:sub(1, 1) ~= "/" then path = (os.getenv "PWD" or "") .. "/" .. path end
  for part in path:gmatch("[^/]+") do
    if part == ".." then table.remove(list) elseif part ~= "." then list[#list + 1] = part end
  end
  return list
end

-- A file as another one beside or below it finds it.
local function seen_from(file, path)
  local from, to, same = parts_of(file), parts_of(path), 1
  while same < #from and same < #to and from[same] == to[same] do same = same + 1 end
  return ("../"):rep(#from - same) .. table.concat(to, "/", same)
end

-- ---- main ------------------------------------------------------------------------

local asked = args.read(spec)
local view = view_of(asked.units or "us")
local job = gather(asked)
job.with_materials = asked.materials

local figures = {
  { name = "section.svg", meaning = "Cross-section", draw = function() return drawings.section(job, view) end },
  { name = "levels.svg", meaning = "Chart of levels", draw = function() return drawings.levels(job, view) end },
}
local files = {}
for i, figure in ipairs(figures) do
  figure.path = asked.drawings and args.prefixed(asked.drawings, figure.name)
  figure.shown = figure.path and asked.markdown and seen_from(asked.markdown, figure.path)
  files[i] = { figure.path, figure.draw, "The " .. figure.meaning:lower() }
end
local page, whole = outputs.pages(asked.full or asked.materials, function() return compose(job, view, figures) end,
  function() return short(job, view) end)
files[#files + 1] = { asked.csv, function() return materials.csv(job, view) end, "The list of quantities" }
files[#files + 1] = { asked.markdown, function() return whole():markdown() end, "The sheet as Markdown" }
files[#files + 1] = { asked.report, function() return whole():html(outputs.sources(asked.pond, asked.map)) end,
  "The sheet with pictures" }
return outputs.finish(page, files)

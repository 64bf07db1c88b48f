-- sheet: the hand-over sheet of a pond, from its description and real weather
local args = require "common.args"
local document = require "common.document"
local inputs = require "common.inputs"
local text = require "common.text"
local view_of = require "common.view"
local care = require "sheet.care"
local drawings = require "sheet.drawings"
local materials = require "sheet.materials"
local season = require "sheet.season"
local water = require "sheet.water"

local spec = {
  usage = "tarn sheet POND.lua WEATHER.csv [options]",
  purpose = "The sheet that a builder hands over: levels, flows, a normal week by month, quantities, care.",
  positions = {
    { name = "POND.lua", key = "pond", meaning = "description of the pond" },
    { name = "WEATHER.csv", key = "weather", meaning = "daily weather" },
  },
  options = inputs.with_weather {
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the sheet (us)" },
    { name = "method", value = "NAME", meaning = "evaporation method (auto)" },
    { name = "markdown", value = "FILE", meaning = "write the sheet as Markdown too" },
    { name = "drawings", value = "PREFIX", meaning = "write PREFIX-levels.svg and PREFIX-section.svg; a folder if it ends in /" },
    { name = "materials", meaning = "add the quantities to the sheet" },
    { name = "csv", value = "FILE", meaning = "write the quantities, with pipes and fittings" },
  },
}

-- Everything that the sections speak of.
local function gather(asked)
  local pond, description, _, located = inputs.pond(asked.pond)
  local weather = inputs.weather(asked.weather, asked)
  local function hinted(...) return inputs.hinted(asked.weather, ...) end
  local job = {
    pond = pond, description = description, weather_path = asked.weather:match("[^/]*$"), name = description.name or "Pond",
    facts = pond:facts(), works = pond:works(), chart = located(pond.chart, pond),
    storm = located(pond.storm, pond), profile = pond:profile(),
  }
  job.at = {}               -- level by name
  for _, level in ipairs(job.chart) do job.at[level.name] = level.level end
  if description.build then
    job.takeoff = located(pond.takeoff, pond)
  else                      -- a basin given by areas has no sizes for it
    local ok, takeoff = pcall(pond.takeoff, pond)
    job.takeoff = ok and takeoff or nil
  end
  job.water = job.takeoff and job.takeoff.water or job.facts.lip_volume
  job.season = season.run(pond, weather, { method = asked.method, hinted = hinted })
  job.totals = job.season.ledger:totals()
  local e = description.evaporation or {}
  job.south = (e.latitude or weather:site().latitude or 1) < 0
  job.frost = season.frost(weather, job.season.dates, job.south)
  job.note = ("Estimate by tarn %s, weather %s to %s. Local codes rule."):format(tarn.version, job.totals.first, job.totals.last)
  return job
end

local function power(job)
  local pump, costs = job.description.pump or {}, job.description.costs or {}
  if not (pump.watts or (pump.amps and pump.volts)) then return nil end
  local hours = 0
  for month = 1, 12 do
    local h = type(pump.hours) == "table" and pump.hours[month] or pump.hours or 24
    hours = hours + h / 12
  end
  return tarn.flow.running_cost { watts = pump.watts, amps = not pump.watts and pump.amps or nil,
    volts = not pump.watts and pump.volts or nil, hours_per_day = hours, price = costs.power }
end

local function put_glance(doc, job, view)
  local f, t, costs, lines = job.facts, job.totals, job.description.costs or {}, {}
  local function add(...) lines[#lines + 1] = string.format(...) end
  local at = f.target or f.trigger or f.lip
  local step = view.name == "us" and { "inch", tarn.units.inch } or { "centimetre", tarn.units.cm }
  local years = t.days / 365.25
  add("Water: %s at the overflow (%s surface); one %s of level is %s.", view:show("volume", job.water), view:show("area", f.lip_area),
    step[1], view:show("volume", job.pond:basin():area(at) * step[2]))
  if job.works.flow then add("Pump: %s.", view:show("flow", job.works.flow)) end
  local run = power(job)
  if run then
    add("Power: %.0f W%s, %.1f kWh a day%s.", run.power, job.description.pump.watts and "" or " at most (amps x volts)", run.kwh_day,
      run.cost_year and (", %s %s a year"):format(text.number(run.cost_year, 0), costs.currency or "") or "")
  end
  local price = (costs.water or 0) + (costs.sewer or 0)
  add("Top-up: %s a year%s.", view:show("volume", t.topup / years),
    price > 0 and (", %s %s"):format(text.number(t.topup / years * price, 0), costs.currency or "") or "")
  if f.fall_ratio > 1.005 then
    add("The level at the ruler falls %.2f times as far as the open water evaporates: bed and stream draw from the pond.", f.fall_ratio)
  end
  doc:list(lines)
end

local function compose(job, view, figures)
  local doc = document()
  doc:title(job.name .. ": hand-over sheet")
  doc:say(job.note)
  put_glance(doc, job, view)
  for _, figure in ipairs(figures) do doc:figure(figure.shown, figure.meaning) end
  water.levels(doc, job, view)
  water.running(doc, job, view)
  water.overflow(doc, job, view)
  care.year(doc, job, view)
  care.worry(doc, job, view)
  care.topup(doc, job, view)
  care.winter(doc, job, view)
  care.calendar(doc, job)
  if job.with_materials then materials.section(doc, job, view) end
  care.assumptions(doc, job, view)
  care.cautions(doc)
  return doc
end

-- All files or none: what was not there before goes again if one fails.
local function write_all(files, inputs_read)
  local made, seen = {}, {}
  for _, file in ipairs(files) do
    if seen[file[1]] then tarn.mistake(file[1] .. ": named for two outputs: one would be lost") end
    seen[file[1]] = true
  end
  for _, file in ipairs(files) do
    local old = io.open(file[1])
    if old then old:close() end
    local ok, message = pcall(tarn.write_file, file[1], file[2], inputs_read)
    if not ok then
      for _, path in ipairs(made) do os.remove(path) end
      tarn.mistake(message)
    end
    if not old then made[#made + 1] = file[1] end
  end
end

-- ---- main -----------------------------------------------------------------------

local asked = args.read(spec)
local view = view_of(asked.units or "us")
local job = gather(asked)
job.with_materials = asked.materials
local figures = {}

-- As the Markdown file finds a figure: by name alone if they share a folder.
local function beside(path)
  local folder = (asked.markdown or ""):match("^.*/") or ""
  return path:sub(1, #folder) == folder and path:sub(#folder + 1) or path
end

if asked.drawings then
  local prefix = asked.drawings:match("/$") and asked.drawings or asked.drawings .. "-"
  figures = {
    { path = prefix .. "levels.svg", meaning = "Chart of levels", source = drawings.levels(job, view) },
    { path = prefix .. "section.svg", meaning = "Cross-section", source = drawings.section(job, view) },
  }
end
for _, figure in ipairs(figures) do figure.shown = beside(figure.path) end
-- Composed before anything is written: a mistake leaves no file behind.
local doc = compose(job, view, figures)
local files = {}
for _, figure in ipairs(figures) do files[#files + 1] = { figure.path, figure.source } end
if asked.csv then files[#files + 1] = { asked.csv, materials.csv(job, view) } end
if asked.markdown then files[#files + 1] = { asked.markdown, doc:markdown() } end
write_all(files, inputs.files(asked))
io.write(doc:text())

-- SPDX-License-Identifier: MIT
-- whatif: scenarios, which input matters, rain tank sizes, budgets, many ponds at once
tarn.study.interrupted()        -- from here on Ctrl-C is noted, not the end
local args = require "common.args"
local doubts = require "common.doubts"
local findings = require "common.findings"
local inputs = require "common.inputs"
local new_page = require "common.page"
local outputs = require "common.outputs"
local ranges = require "common.ranges"
local screen = require "common.screen"
local view_of = require "common.view"
local brief = require "whatif.brief"
local figures = require "whatif.figures"
local questions = require "whatif.questions"
local records = require "whatif.records"
local sections = require "whatif.sections"

local spec = {
  usage = "tarn whatif POND.lua WEATHER.csv STUDY.lua [options]",
  purpose = "What if it is hotter, drier, shadier; the bed doubled, the hose banned; which input matters.",
  positions = {
    { name = "POND.lua", key = "pond", meaning = "description of the pond" },
    { name = "WEATHER.csv", key = "weather", meaning = "daily weather, ten years or more" },
    { name = "STUDY.lua", key = "study", meaning = "what to change: docs/guide-consultant.md" },
  },
  options = inputs.with_weather {
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the report (us)" },
    inputs.method_option,
    screen.option "inputs, samples, rain tanks, budget and all that it rests on",
    { name = "threads", value = "N", kind = "number", meaning = "processors to use (all)" },
    { name = "control", was = "rule", value = "FILE", meaning = "Lua file that returns function(day), called before each day (slow), in a box without files and programs" },
    { name = "trust", meaning = "run --control with your own rights: only a file that you have read" },
    { name = "part", value = "K/N", meaning = "run part K of N of the samples, into --record, and no report" },
    { name = "record", value = "FILE", kind = "record", meaning = "keep finished samples here; go on from it; report from a merged one" },
    { name = "skip-bad", meaning = "go on without samples that are no pond that could stand" },
    { name = "csv", value = "FILE", kind = "output", meaning = "write the samples, one line each (SI units)" },
    { name = "report", value = "FILE", kind = "output", meaning = "write the report as one HTML file, with pictures" },
  },
  more = "Ctrl-C (or SIGTERM) keeps what is finished in --record. Parts are put together by: tarn merge WHOLE PART PART ...",
}

-- The control of a file: in a box, which knows its text; or as a part of this program for who trusts it, and the text.
local function read_control(path, trusted)
  if not path then return trusted and tarn.mistake "--trust goes with --control FILE" end
  local function heed() if tarn.study.interrupted() then records.stop {} end end
  if not trusted then
    local ok, control = pcall(tarn.control, path)
    heed()
    return ok and control or error(control, 0)
  end
  local text = outputs.text(path)
  local chunk, why = load((text:gsub("^#[^\n]*", "")), "@" .. path, "t")
  debug.sethook(heed, "", 10000)        -- the file itself may never end
  local ok, control = inputs.tried(chunk or error, why)
  debug.sethook()
  heed()
  if not ok or type(control) ~= "function" then
    tarn.mistake(("%s: must return function(day)%s"):format(path, ok and "" or ": " .. tostring(control)))
  end
  return control, text
end

local function read_budget(job, view)
  local b = job.file.budget
  local totals = job.pond:run(job.weather, job.options):totals()
  local budget = { unit = b.unit, adjustment = b.adjustment, plant_factor = b.plant_factor,
    efficiency = b.efficiency or 1,
    reference = b.reference or view:value("rain", totals.grass_mm / job.years),
    area = b.area or view:value("area", job.pond:facts().wetted) }
  local result = inputs.hinted("budget", tarn.study.budget, budget)
  budget.allowance, budget.use = result.allowance, result.use
  return budget
end

local asked = args.read(spec)
asked.stretch = true            -- blocks of ponds go by the index of a day
local view = view_of(asked.units or "us")
local control, control_text = read_control(asked.control, asked.trust)
local job = { control = control, control_text = control_text, threads = asked.threads, skip_bad = asked.skip_bad,
  options = { method = asked.method } }

-- After each step of the study: Ctrl-C ends it with one message, at any moment.
function job.step(...)
  if tarn.study.interrupted() then records.stop(asked, job.file and job.file.samples, job.rows) end
  return ...
end

-- What only samples fill, and the study file asks for none.
local function check_samples(file)
  if file.samples or asked.part then return end
  for _, name in ipairs { "csv", "record" } do
    if asked[name] then
      tarn.mistake(("--%s is for samples, and %s asks for none (samples = N)"):format(name, asked.study))
    end
  end
end

records.check(asked)
job.step()
job.file = job.step(questions.read(asked.study))
local place, _
job.pond, job.description, _, _, place = inputs.pond(asked.pond)
job.measured = job.step(inputs.weather(asked.weather, asked, job.description))
job.weather = job.measured
if job.file.generate then
  job.weather = inputs.hinted(asked.weather, tarn.study.generate, job.weather, job.file.generate)
end
job.forcing = job.step(inputs.hinted(asked.weather, job.pond.forcing, job.pond, job.weather, job.options))

local sensitivity = job.file.sensitivity and not asked.part and job.step(questions.sensitivity_columns(job))
local study, values
if job.file.samples then study, values = job.step(questions.ensemble(job)) end
job.step(questions.check(job, sensitivity))
check_samples(job.file)
if study then
  job.total = #study
  job.rows = records.run(study, asked)
  job.step()
elseif asked.part then
  tarn.mistake(asked.study .. ": has no samples to divide")
end
local function samples() return records.csv(job.rows, job.file.inputs, values) end
if asked.part then
  if asked.csv then outputs.write(asked.csv, samples()) end
  return
end

local start = os.clock()
job.scenarios = questions.scenarios(job)
job.control_ns = (os.clock() - start) * 1e9 / #job.scenarios / #job.forcing
local base = job.pond:run(job.weather, { method = asked.method, each_day = job.control })
job.season = tarn.season(base)
job.years = job.season.years
if #(job.file.inputs or {}) > 0 then job.swings = questions.one_at_a_time(job) end
if sensitivity then job.sensitivity = questions.sensitivity(job, sensitivity) end
if job.file.tank then job.tank = questions.tank(job) end
if job.file.budget then job.budget = job.step(read_budget(job, view)) end

if not job.control then job.range, job.no_range = job.step(ranges.of(job.pond, job.measured, job.options)) end

local function begun()
  local page = new_page((job.description.name or asked.pond) .. ": " .. (job.file.name or "what if"))
  local checks = job.pond:findings()
  local found = findings.of(view, findings.levels(checks), job.pond:ledger_findings(base))
  doubts.add_pond(found, job.pond, view, checks, place)
  doubts.add(found, job.measured, view)
  page:found(found)
  return page
end

local function full()
  local page = begun()
  sections.answer(page, job, view)
  doubts.choices(page, job.measured)
  sections.scenarios(page, job, view)
  page:figure(function() return figures.scenarios(job, view) end, "Top-up of a middle and of a dry year")
  sections.swings(page, job, view)
  if job.swings then
    page:figure(function() return figures.swings(job, view) end, "Top-up a year, from the low to the high end of each input")
  end
  sections.sensitivity(page, job, view)
  sections.ensemble(page, job, view)
  sections.tank(page, job, view)
  sections.budget(page, job, view)
  sections.notes(page, job)
  return page
end

-- One screen, where not all is asked for.
local function short()
  local page = begun()
  page:paragraph("%s", screen.pond(job.pond, view))
  sections.answer(page, job, view, true)
  doubts.choices(page, job.measured)
  brief(page, job, view)
  return page
end

local page, whole = outputs.pages(asked.full, full, short)
job.step()
return outputs.finish(page, {
  { job.rows and asked.csv, samples, "The table of samples (SI units)" },
  { asked.report, function() return whole():html(outputs.sources(asked.pond, asked.study, asked.map, asked.control)) end,
    "The report with pictures" },
})

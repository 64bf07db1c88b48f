-- SPDX-License-Identifier: MIT
-- From a study file to studies and their rows: docs/guide-consultant.md says
-- what a study file holds.
local inputs = require "common.inputs"

local questions = {}

-- What a study file holds, by type; "text" may be printed, a "count" is whole.
local STUDY = { name = "text", generate = "table", scenarios = "list", inputs = "list", samples = "count",
  sampling = "text", seed = "whole", sensitivity = "count", tank = "table", budget = "table" }
questions.fields = STUDY
local SAMPLINGS = { "latin", "sobol" }
local SCENARIO = { name = "text", pond = "table", weather = "table", topup = "boolean" }
local INPUT = { field = "text", name = "text", low = "number", high = "number", times = "table" }
local TANK = { capacities = "list", roof = "number", target = "number" }
local BUDGET = { unit = "number", adjustment = "number", plant_factor = "number", efficiency = "number",
  reference = "number", area = "number" }

-- ---- reading -------------------------------------------------------------------

local KINDS = {
  text = { "a text", function(x) return type(x) == "string" and utf8.len(x) and not x:find "%c" end },
  number = { "a number", function(x) return type(x) == "number" and math.abs(x) < math.huge end },
  whole = { "a whole number from 0", function(x) return math.tointeger(x) and x >= 0 end },
  count = { "a whole number from 1", function(x) return math.tointeger(x) and x >= 1 end },
  table = { "a table", function(x) return type(x) == "table" end },
  list = { "a list, each entry in braces of its own", function(x) return type(x) == "table" end },
  boolean = { "true or false", function(x) return type(x) == "boolean" end },
}

local function check_kind(value, kind, name)
  local want = KINDS[kind]
  if want[2](value) then return end
  tarn.mistake(("%s must be %s%s"):format(name, want[1],
    type(value) == "number" and (", got %g"):format(value) or ""))
end

local function check(t, shape, where)
  for key, value in pairs(t) do
    local kind = shape[key]
    if not kind then
      local names = {}
      for name in pairs(shape) do names[#names + 1] = name end
      table.sort(names)
      local near = tarn.nearest(tostring(key), names)
      tarn.mistake(("%s: unknown field '%s'%s"):format(where, tostring(key),
        near and (": did you mean '" .. near .. "'?") or ""))
    end
    check_kind(value, kind, where .. ": " .. key)
  end
  return t
end

-- A list: each entry a number, or a table of such a shape.
local function check_list(list, shape, where)
  local count = #list
  for key in pairs(list) do
    if not math.tointeger(key) or key < 1 or key > count then
      tarn.mistake(("%s must be a list, each entry in braces of its own; '%s' stands between them"):format(where,
        tostring(key)))
    end
  end
  for i, entry in ipairs(list) do
    local name = ("%s, entry %d"):format(where, i)
    check_kind(entry, shape == "number" and shape or "table", name)
    if shape ~= "number" then check(entry, shape, name) end
  end
end

-- The numbers of a table that is laid over a description, in its fields' units.
local function settle(t, path)
  for key, value in pairs(t) do
    local at = math.tointeger(key) and ("%s[%d]"):format(path, key) or path .. (path == "" and "" or ".") .. tostring(key)
    if type(value) == "table" then settle(value, at)
    elseif type(value) == "number" then t[key] = tarn.study.number(t, key, at) end
  end
end

local function settle_units(file)
  for _, scenario in ipairs(file.scenarios or {}) do settle(scenario.pond or {}, "") end
  for _, input in ipairs(file.inputs or {}) do
    for _, key in ipairs { "low", "high" } do input[key] = tarn.study.number(input, key, input.field or "") end
    for i in ipairs(input.times or {}) do input.times[i] = tarn.study.number(input.times, i, "times") end
  end
  local tank = file.tank or {}
  tank.roof = tarn.study.number(tank, "roof", "tank.roof")
  for i in ipairs(tank.capacities or {}) do tank.capacities[i] = tarn.study.number(tank.capacities, i, "tank.capacity") end
end

-- From where to where an input goes.
local function bounds_of(input)
  local bounds = input.times or { input.low, input.high }
  return bounds[1], bounds[2]
end

local function check_inputs(list)
  local seen = {}
  for i, input in ipairs(list) do
    local where = ("inputs, entry %d"):format(i)
    if input.times then check_list(input.times, "number", where .. ": times") end
    local low, high = bounds_of(input)
    if not (input.field and low and high) or input.times and #input.times > 2 then
      tarn.mistake(where .. ": needs a field, and low and high, or times = {low, high}")
    end
    where = ("%s (%s)"):format(where, input.field)
    if input.times and (input.low or input.high) then
      tarn.mistake(where .. ": has times, and low or high too; give one of them")
    end
    input.field = inputs.path_now(input.field)
    if not (low < high) then
      tarn.mistake(("%s: goes from %g to %g; the low end comes first, and lies under the high one"):format(where, low,
        high))
    end
    if seen[input.field] then
      tarn.mistake(("%s: is entry %d too; an input stands once"):format(where, seen[input.field]))
    end
    seen[input.field] = i
  end
end

local function check_whole(file, path)
  for _, what in ipairs { "samples", "sensitivity" } do
    if file[what] and #(file.inputs or {}) == 0 then tarn.mistake(("%s: %s needs inputs"):format(path, what)) end
  end
  if file.sampling and file.sampling ~= SAMPLINGS[1] and file.sampling ~= SAMPLINGS[2] then
    local near = tarn.nearest(file.sampling, SAMPLINGS)
    tarn.mistake(("%s: sampling must be latin or sobol, got '%s'%s"):format(path, file.sampling,
      near and (": did you mean '" .. near .. "'?") or ""))
  end
  if file.tank then
    if #(file.tank.capacities or {}) == 0 then tarn.mistake "tank.capacities: needs one or more, a list" end
    local target = file.tank.target
    if target and not (target > 0 and target <= 1) then
      tarn.mistake(("tank.target must be above 0 and at most 1, got %g: 90 %% is 0.9"):format(target))
    end
  end
  for _, name in ipairs { "unit", "adjustment", "plant_factor" } do
    if file.budget and not file.budget[name] then tarn.mistake(("budget.%s is missing"):format(name)) end
  end
end

function questions.read(path)
  local file = path and tarn.description(path) or {}
  if file.design ~= nil and file.sampling == nil then
    file.sampling, file.design = file.design, nil
    table.insert(inputs.old_names, { "design", "sampling" })
  end
  check(file, STUDY, path)
  check_list(file.scenarios or {}, SCENARIO, "scenarios")
  for i, scenario in ipairs(file.scenarios or {}) do
    inputs.renamed(scenario.pond or {})
    scenario.unnamed = (scenario.name or "") == ""
    if scenario.unnamed then scenario.name = ("scenario %d"):format(i) end
  end
  check_list(file.inputs or {}, INPUT, "inputs")
  check(file.tank or {}, TANK, "tank")
  if file.tank then check_list(file.tank.capacities or {}, "number", "tank.capacities") end
  settle_units(file)
  check_inputs(file.inputs or {})
  check(file.budget or {}, BUDGET, "budget")
  check_whole(file, path)
  return file
end

-- The description with a scenario's changes: tables merge, the rest is replaced.
local function merged(base, changes)
  if type(base) ~= "table" or type(changes) ~= "table" or changes[1] ~= nil then return changes end
  local out = {}
  for k, v in pairs(base) do out[k] = v end
  for k, v in pairs(changes) do out[k] = merged(base[k], v) end
  return out
end

-- ---- scenarios --------------------------------------------------------------------

local function run_scenario(job, scenario)
  local description = merged(job.description, scenario.pond or {})
  local where = scenario.unnamed and scenario.name or ("scenario '%s'"):format(scenario.name)
  local pond = inputs.hinted(where, tarn.pond, description)
  local weather = job.weather
  if scenario.weather then weather = inputs.hinted(where, tarn.study.changed, weather, scenario.weather) end
  local forcing = inputs.hinted(where, pond.forcing, pond, weather, job.options)
  local rows = job.step(inputs.hinted(where, tarn.study, { pond = pond, weather = forcing, topup = scenario.topup,
    each_day = job.control }):run { threads = 1 })
  local report = forcing:report()
  local out = { name = scenario.name, method = report.method, pond = pond }
  for name, list in pairs(rows.values) do out[name] = list[1] end
  local warmer = scenario.weather and scenario.weather.temperature
  out.simple = warmer and report.rests_on_warmth
  return out
end

function questions.scenarios(job)
  local out = { run_scenario(job, { name = "as it is" }) }
  for _, scenario in ipairs(job.file.scenarios or {}) do out[#out + 1] = run_scenario(job, scenario) end
  return out
end

-- ---- inputs ---------------------------------------------------------------------------

local function columns_of(list, values)
  local columns = {}
  for d, input in ipairs(list) do
    columns[d] = { field = input.field, [input.times and "times" or "set"] = values[d] }
  end
  return columns
end

local function study_of(job, columns, skip_bad)
  return tarn.study { pond = job.pond, weather = job.forcing, columns = columns, each_day = job.control,
    control_text = job.control_text, skip_bad = skip_bad }
end

-- All rows, of which none can be left out.
local function run(job, columns)
  return job.step(study_of(job, columns):run { threads = job.threads })
end

-- Shares of each input spread over its range.
local function spread(list, shares)
  for d, input in ipairs(list) do
    shares[d] = tarn.study.scale(shares[d], bounds_of(input))
  end
  return shares
end

-- Makes samples; those that cannot be are told by what the study file calls them.
local function samples(name, f, ...)
  local ok, result = pcall(f, ...)
  if ok then return result end
  local message, renamed = tostring(result):gsub("^%l+ must", name .. " must")
  if renamed == 0 then error(result, 0) end
  tarn.mistake(message)
end

-- Row 1 is the pond as it is; then each input at its low and its high end, the others as they are.
local function ends(list)
  local low, high = {}, {}
  for d, input in ipairs(list) do
    low[d], high[d] = bounds_of(input)
  end
  return columns_of(list, tarn.study.one_at_a_time(low, high))
end

function questions.one_at_a_time(job)
  local list = job.file.inputs
  local rows = run(job, ends(list))
  local swings = tarn.study.swings(rows.values.topup)
  for d, swing in ipairs(swings) do swing.input = list[d] end
  table.sort(swings, function(a, b) return a.rank < b.rank end)
  return swings
end

-- What 'sensitivity' runs: made before anything long, as it may be refused.
function questions.sensitivity_columns(job)
  local list = job.file.inputs
  return columns_of(list, spread(list, samples("sensitivity", tarn.study.sensitivity_samples, job.file.sensitivity, #list)))
end

function questions.sensitivity(job, columns)
  local list = job.file.inputs
  local rows = run(job, columns)
  local out = tarn.study.sensitivity(rows.values.topup, #list, job.file.seed or 1)
  for d, s in ipairs(out) do s.input = list[d] end
  return out
end

-- All inputs at once, by chance within their ranges: the part of a study that
-- may be long, so it is the one that is divided and gone on with.
function questions.ensemble(job)
  local list, count = job.file.inputs, job.file.samples
  local shares
  if job.file.sampling == "sobol" then
    shares = samples("samples", tarn.study.sobol, count, #list)
  else
    shares = samples("samples", tarn.study.latin, count, #list, job.file.seed or 1)
  end
  local values = spread(list, shares)
  return study_of(job, columns_of(list, values), job.skip_bad), values
end

-- ---- tank -------------------------------------------------------------------------------

local BEYOND = 64             -- sizes that are tried where the list ends too early

local function tank_columns(job, sizes)
  local columns, roof = {}, {}
  columns[1] = { field = "tank.capacity", set = sizes }
  if job.file.tank.roof then
    for i in ipairs(sizes) do roof[i] = job.file.tank.roof end
    columns[2] = { field = "tank.roof", set = roof }
  elseif not (job.description.tank and job.description.tank.roof) then
    tarn.mistake "tank: needs a roof: an area here, or in the pond's description"
  end
  return columns
end

-- The list goes on to a tank that never spills, where none of the list is enough.
local function tank_answer(job, sizes, rows)
  local target, curve, shares = job.file.tank.target, {}, {}
  local function add(list, values)
    for i, size in ipairs(list) do
      curve[#curve + 1], shares[#shares + 1] = size, values.tank_share[i]
    end
  end
  add(sizes, rows)
  if not shares[1] then return nil end          -- no need, no share
  local answer = tarn.study.tank_answer(curve, shares, #sizes, target)
  local all = rows.roof[1] + (job.description.tank and job.description.tank.start or 0)
  local more = answer.word == "none" and tarn.study.tank_beyond(sizes[#sizes], all, BEYOND)
  if not more then return answer end
  add(more, run(job, tank_columns(job, more)).values)
  return tarn.study.tank_answer(curve, shares, #sizes, target)
end

function questions.tank(job)
  local sizes = job.file.tank.capacities
  local rows = run(job, tank_columns(job, sizes)).values
  return { sizes = sizes, rows = rows, answer = job.file.tank.target and tank_answer(job, sizes, rows) }
end

-- ---- what cannot be left out ----------------------------------------------------------

-- 'name_of' gives what the study file calls a row.
local function refuse_bad(job, columns, name_of)
  local bad, why = study_of(job, columns):check()
  if bad[1] then tarn.mistake(("%s: %s"):format(name_of(bad[1]), (why:gsub(" %(variant %d+%)", "")))) end
end

-- Refuses, before anything long runs, an end of an input, a size of the tank and a row of 'sensitivity' (its columns)
-- with which no pond could stand: only a sample can be left out.
function questions.check(job, sensitivity)
  local list = job.file.inputs or {}
  if #list > 0 then
    refuse_bad(job, ends(list), function(row)
      return ("inputs, entry %d: its %s end"):format(row // 2, row % 2 == 0 and "low" or "high")
    end)
  end
  if job.file.tank then
    local sizes = job.file.tank.capacities
    refuse_bad(job, tank_columns(job, sizes), function(row) return ("tank: capacities, entry %d"):format(row) end)
    for i = 2, #sizes do
      if not (sizes[i] > sizes[i - 1]) then
        tarn.mistake(("tank: capacities, entry %d: %g m3 after %g m3; they must rise"):format(i, sizes[i], sizes[i - 1]))
      end
    end
  end
  if sensitivity then
    refuse_bad(job, sensitivity, function() return "sensitivity: some inputs do not go together" end)
  end
end

return questions

-- From a study file to studies and their rows: docs/guide-consultant.md says
-- what a study file holds.
local inputs = require "common.inputs"

local plan = {}

local TEMPERATURE_ONLY = { hargreaves = true, mass_transfer = true, pan = true, given = true, given_reference = true }

-- What a study file holds, by type; "text" may be printed.
local STUDY = { name = "text", generate = "table", scenarios = "table", inputs = "table", samples = "number",
  design = "text", seed = "number", sensitivity = "number", tank = "table", budget = "table" }
local SCENARIO = { name = "text", pond = "table", weather = "table", topup = "boolean" }
local INPUT = { field = "text", name = "text", low = "number", high = "number", times = "table" }
local TANK = { capacities = "table", roof = "number", target = "number" }
local BUDGET = { unit = "number", adjustment = "number", plant_factor = "number", efficiency = "number",
  reference = "number", area = "number" }

-- ---- reading -------------------------------------------------------------------

local function is(value, kind)
  if kind == "text" then return type(value) == "string" and utf8.len(value) and not value:find "%c" end
  return type(value) == kind and (kind ~= "number" or math.abs(value) < math.huge)
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
    if not is(value, kind) then tarn.mistake(("%s: %s must be a %s"):format(where, key, kind)) end
  end
  return t
end

-- A list: each entry a number, or a table of such a shape.
local function check_list(list, shape, where)
  local count = 0
  for _ in pairs(list) do count = count + 1 end
  if count ~= #list then tarn.mistake(where .. ": must be a list") end
  for i, entry in ipairs(list) do
    local kind = shape == "number" and shape or "table"
    if not is(entry, kind) then tarn.mistake(("%s: entry %d must be a %s"):format(where, i, kind)) end
    if kind == "table" then check(entry, shape, ("%s, entry %d"):format(where, i)) end
  end
end

function plan.read(path)
  local file = check(path and tarn.description(path) or {}, STUDY, path)
  check_list(file.scenarios or {}, SCENARIO, "scenarios")
  check_list(file.inputs or {}, INPUT, "inputs")
  for i, input in ipairs(file.inputs or {}) do
    local where = ("inputs, entry %d"):format(i)
    if input.times then check_list(input.times, "number", where .. ": times") end
    local bounds = input.times or { input.low, input.high }
    if not (input.field and bounds[1] and bounds[2]) then
      tarn.mistake(where .. ": needs a field, and low and high, or times = {low, high}")
    end
  end
  check(file.tank or {}, TANK, "tank")
  if file.tank then
    check_list(file.tank.capacities or tarn.mistake "tank: needs capacities, a list", "number", "tank: capacities")
  end
  check(file.budget or {}, BUDGET, "budget")
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

-- Radiation or humidity that was worked out from temperature: as good as none.
local function rests_on_temperature(report)
  for _, rule in ipairs(report.rules) do
    if rule.estimate and (rule.title:find "^radiation" or rule.title:find "^humidity") then return true end
  end
end

local function run_scenario(job, scenario)
  local description = merged(job.description, scenario.pond or {})
  local where = "scenario '" .. (scenario.name or "?") .. "'"
  local pond = inputs.hinted(where, tarn.pond, description)
  local weather = job.weather
  if scenario.weather then weather = inputs.hinted(where, tarn.study.changed, weather, scenario.weather) end
  local forcing = inputs.hinted(where, pond.forcing, pond, weather, job.options)
  local rows = job.step(inputs.hinted(where, tarn.study, { pond = pond, weather = forcing, topup = scenario.topup,
    each_day = job.rule }):run { threads = 1 })
  local report = forcing:report()
  local out = { name = scenario.name or "?", method = report.method, pond = pond }
  for name, list in pairs(rows.values) do out[name] = list[1] end
  local warmer = scenario.weather and scenario.weather.temperature
  out.simple = warmer and (TEMPERATURE_ONLY[out.method] or rests_on_temperature(report))
  return out
end

function plan.scenarios(job)
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

local function study_of(job, columns)
  return tarn.study { pond = job.pond, weather = job.forcing, columns = columns, each_day = job.rule,
    skip_bad = job.skip_bad }
end

local function run(job, columns)
  return job.step(study_of(job, columns):run { threads = job.threads })
end

-- Shares of each input spread over its range.
local function spread(list, shares)
  for d, input in ipairs(list) do
    local bounds = input.times or { input.low, input.high }
    shares[d] = tarn.study.scale(shares[d], bounds[1], bounds[2])
  end
  return shares
end

-- Each input at its low and its high end, the others as they are.
function plan.one_at_a_time(job)
  local list, low, high = job.file.inputs, {}, {}
  for d, input in ipairs(list) do
    local bounds = input.times or { input.low, input.high }
    low[d], high[d] = bounds[1], bounds[2]
  end
  local rows = run(job, columns_of(list, tarn.study.one_at_a_time(low, high)))
  local swings = tarn.study.swings(rows.values.topup)
  for d, swing in ipairs(swings) do swing.input = list[d] end
  table.sort(swings, function(a, b) return a.rank < b.rank end)
  return swings
end

function plan.sensitivity(job)
  local list, count = job.file.inputs, job.file.sensitivity
  local shares = spread(list, tarn.study.sensitivity_design(count, #list))
  local rows = run(job, columns_of(list, shares))
  local out = tarn.study.sensitivity(rows.values.topup, #list, job.file.seed or 1)
  for d, s in ipairs(out) do s.input = list[d] end
  return out
end

-- All inputs at once, by chance within their ranges: the part of a study that
-- may be long, so it is the one that is divided and gone on with.
function plan.ensemble(job)
  local list, count = job.file.inputs, job.file.samples
  local shares
  if job.file.design == "sobol" then
    shares = tarn.study.sobol(count, #list)
  else
    shares = tarn.study.latin(count, #list, job.file.seed or 1)
  end
  local values = spread(list, shares)
  return study_of(job, columns_of(list, values)), values
end

-- ---- tank -------------------------------------------------------------------------------

function plan.tank(job)
  local sizes, columns, roof = job.file.tank.capacities, {}, {}
  columns[1] = { field = "tank.capacity", set = sizes }
  if job.file.tank.roof then
    for i in ipairs(sizes) do roof[i] = job.file.tank.roof end
    columns[2] = { field = "tank.roof", set = roof }
  elseif not (job.description.tank and job.description.tank.roof) then
    tarn.mistake "tank: needs a roof: an area here, or in the pond's description"
  end
  local rows = run(job, columns)
  return { sizes = sizes, rows = rows.values,
    best = job.file.tank.target and tarn.study.tank_capacity(sizes, rows.values.tank_share, job.file.tank.target) }
end

return plan

-- SPDX-License-Identifier: MIT
-- What the native build says of a job, as JSON for the tests of the page:
--     build/tarn tests/web/dump.lua ledger POND WEATHER.csv [MAP.lua]
--     build/tarn tests/web/dump.lua bed POND
--     build/tarn tests/web/dump.lua pair POND
--     build/tarn tests/web/dump.lua leak POND WEATHER.csv MAP.lua LOG.csv
local inputs = require "common.inputs"
local json = require "common.json"
local plan = require "bed.plan"

local what, path = arg[1], arg[2]
local pond, description, source = inputs.pond(path)

local function weather_of(file, map)
  return tarn.weather.read(file, map and tarn.description(map) or {})
end

local dump = {}

function dump.ledger()
  local weather = weather_of(arg[3], arg[4])
  local ledger = pond:run(weather)
  local band = {}
  for _, method in ipairs(pond:methods(weather)) do
    if method ~= ledger:report().method then
      band[#band + 1] = pond:run(weather, { method = method }):totals().topup
    end
  end
  return { days = ledger:days(), weeks = ledger:weeks(), months = ledger:months(), years = ledger:years(),
    totals = ledger:totals(), facts = pond:facts(), band = band,
    endurance = pond:facts().intake and pond:endurance(weather) or nil }
end

function dump.bed()
  local job = plan.of(pond, description, source, path)
  return { sized = job.sized, stack = job.stack, fit = job.fit, fits = plan.fits(job) }
end

function dump.pair()
  local sixteenth = tarn.units.inch / 16
  return tarn.pair { pond = pond, month = 7,
    off = { hours = 48, drop = 8 * sixteenth, bucket = 6 * sixteenth },
    on = { hours = 48, drop = 20 * sixteenth, bucket = 6 * sixteenth } }
end

function dump.leak()
  local leak = tarn.leak { pond = pond, weather = weather_of(arg[3], arg[4]), log = tarn.log.read(arg[5]) }
  local held, holdout = pcall(leak.holdout, leak)
  local told, calibration = pcall(leak.calibration, leak)
  return { result = leak:result(), intervals = leak:intervals(), path = leak:path(), weeks = leak:weeks(),
    holdout = held and holdout or nil, calibration = told and calibration or nil }
end

io.write(json.line(dump[what]()))

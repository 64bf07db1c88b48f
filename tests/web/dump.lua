-- What the native build says of a job, as JSON for tests/web/run.mjs:
--     build/tarn tests/web/dump.lua ledger POND WEATHER.csv [MAP.lua]
--     build/tarn tests/web/dump.lua bed POND
--     build/tarn tests/web/dump.lua pair POND
local inputs = require "common.inputs"
local json = require "common.json"
local plan = require "bed.plan"

local what, path = arg[1], arg[2]
local pond, description, source = inputs.pond(path)

if what == "ledger" then
  local weather = tarn.weather.read(arg[3], arg[4] and tarn.description(arg[4]) or {})
  local ledger = pond:run(weather)
  local band = {}
  for _, method in ipairs(pond:methods(weather)) do
    if method ~= ledger:report().method then
      band[#band + 1] = pond:run(weather, { method = method }):totals().topup
    end
  end
  io.write(json.line { days = ledger:days(), weeks = ledger:weeks(), months = ledger:months(), years = ledger:years(),
    totals = ledger:totals(), facts = pond:facts(), band = band,
    endurance = pond:facts().intake and pond:endurance(weather) or nil })
elseif what == "bed" then
  io.write(json.line(plan.of(pond, description, source, path).sized))
else
  local sixteenth = tarn.units.inch / 16
  io.write(json.line(tarn.pair { pond = pond, month = 7,
    off = { hours = 48, drop = 8 * sixteenth, bucket = 6 * sixteenth },
    on = { hours = 48, drop = 20 * sixteenth, bucket = 6 * sixteenth } }))
end

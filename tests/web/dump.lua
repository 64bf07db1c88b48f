-- What the native build says of a job, as JSON for tests/web/run.mjs:
--     build/tarn tests/web/dump.lua ledger POND WEATHER.csv [MAP.lua]
--     build/tarn tests/web/dump.lua bed POND
--     build/tarn tests/web/dump.lua pair POND
local inputs = require "common.inputs"
local plan = require "bed.plan"

local function encode(x)
  if type(x) == "string" then return '"' .. x:gsub('["\\]', "\\%0") .. '"' end
  if x == math.huge then return "1e999" end
  if type(x) == "number" then return ("%.17g"):format(x) end
  if type(x) ~= "table" then return tostring(x) end
  local out = {}
  if #x > 0 then
    for i, item in ipairs(x) do out[i] = encode(item) end
    return "[" .. table.concat(out, ",") .. "]"
  end
  for name, item in pairs(x) do out[#out + 1] = encode(name) .. ":" .. encode(item) end
  return "{" .. table.concat(out, ",") .. "}"
end

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
  io.write(encode { days = ledger:days(), weeks = ledger:weeks(), months = ledger:months(), years = ledger:years(),
    totals = ledger:totals(), facts = pond:facts(), band = band,
    endurance = pond:facts().intake and pond:endurance(weather) or nil }, "\n")
elseif what == "bed" then
  io.write(encode(plan.of(pond, description, source, path).sized), "\n")
else
  local sixteenth = tarn.units.inch / 16
  io.write(encode(tarn.pair { pond = pond, month = 7,
    off = { hours = 48, drop = 8 * sixteenth, bucket = 6 * sixteenth },
    on = { hours = 48, drop = 20 * sixteenth, bucket = 6 * sixteenth } }), "\n")
end

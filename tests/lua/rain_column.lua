-- SPDX-License-Identifier: MIT
-- Which column is the rain, where its name is not the usual one.
local folder = io.popen("mktemp -d"):read "l"
local TARN = (os.getenv "TARN_BUILD" or "build") .. "/tarn"

local function written(name, text)
  local path = folder .. "/" .. name
  local file = assert(io.open(path, "w"))
  file:write(text)
  file:close()
  return path
end

local function run(command)
  local pipe = io.popen(TARN .. " " .. command .. " 2>&1")
  local text = pipe:read "a"
  return text:gsub("%s+", " "), select(3, pipe:close())
end

-- hours with rain alone, and with precipitation beside it, which has the snow too
local lines = { "time,temperature_2m (°C),rain (mm)", "time,temperature_2m (°C),rain (mm),precipitation (mm)" }
for day = 1, 2 do
  for hour = 0, 23 do
    local row = ("2019-01-%02dT%02d:00,%d,%s"):format(day, hour, hour, hour == 6 and "0.5" or "0")
    lines[1] = lines[1] .. "\n" .. row
    lines[2] = lines[2] .. "\n" .. row .. "," .. (hour == 6 and "0.7" or "0")
  end
end
for i, want in ipairs { 0.5, 0.7 } do
  local weather = tarn.weather.read(written(i .. ".csv", lines[i] .. "\n"))
  local rain = weather:column "rain"
  assert(#rain == 2 and math.abs(rain[1] - want) < 1e-12 and math.abs(rain[2] - want) < 1e-12, want)
end

-- no name is taken for rain: the message names the columns that are not used
local dry = written("dry.csv", "date,Tx (C),Tn (C),RHx (%),RHn (%),P\n2019-01-01,5,1,90,60,0\n2019-01-02,6,2,91,61,3\n2019-01-03,6,2,91,61,3\n")
local PLACE = " --latitude 45 --elevation 100 --wind-height 2"
local text, status = run("topup weather-samples/courtyard-pond.lua " .. dry .. PLACE)
assert(status == 2 and text:find("no column was taken for rain, which the ledger needs (0 on dry days); if it is one of those that are not used (P), say --column rain=NAME", 1, true), text)
text, status = run("weather " .. dry .. PLACE)
assert(status == 3 and text:find("those that are not used (P), say --column rain=NAME", 1, true), text)
text, status = run("topup weather-samples/courtyard-pond.lua " .. dry .. PLACE .. " --column rain=P --unit rain=mm")
assert(status == 0 and text:find("(3 days)", 1, true), text)
local humid = tarn.weather.read(dry)
assert(humid:column "rh_max"[1] == 90 and humid:column "rh_min"[3] == 61)
os.execute("rm -r " .. folder)

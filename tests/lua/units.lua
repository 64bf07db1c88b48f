-- SPDX-License-Identifier: MIT
-- Units of a description carry their dimension: from its text to the reader, and
-- to the first lines of each report.
local TARN = (os.getenv "TARN_BUILD" or "build") .. "/tarn"
local SEATTLE = " weather-samples/seattle_daily_2012_2015.csv --map weather-samples/seattle-map.lua"
local path = os.tmpname()

local function write(text)
  local f = assert(io.open(path, "w"))
  f:write(text)
  f:close()
end

local function read(text)
  write(text)
  return tarn.description(path)
end

local BASIN = "basin = { length = 24 * ft, width = 14 * ft, depth = 3 * ft }, overflow_level = 2.5 * ft"
local function pond(more, before)
  local d = read((before or "") .. "\nreturn { " .. BASIN .. ", " .. (more or "") .. " }")
  return tarn.pond(d), d
end

local function near(a, b) return math.abs(a - b) <= 4e-16 * math.abs(b) end
local function refused(part, f, ...)
  local ok, why = pcall(f, ...)
  why = type(why) == "table" and why.text or tostring(why)
  assert(not ok and why:find(part, 1, true), part .. " is not in: " .. why)
  return why
end

-- One base for every rate of depth: 6 in/d is 0.25 in/h, and the other way.
local _, d = pond "storm = { intensity = 6 * inch_per_day }, seepage = { rate = 1 * inch_per_hour }"
assert(near(d.storm.intensity, 6.35) and near(d.seepage.rate, 609.6))
_, d = pond "storm = { intensity = 2 * inch_per_hour }, seepage = { rate = 3 * mm_per_day }"
assert(d.storm.intensity == 50.8 and d.seepage.rate == 3)
_, d = pond "storm = { intensity = 6 * inch / (24 * hour), duration = 24 * hour }, pump = { hours = 480 * minute }"
assert(near(d.storm.intensity, 6.35) and d.storm.duration == 86400 and d.pump.hours == 8)
_, d = pond "tank = { capacity = 50 * gal, roof = 20 * m2, first_flush = 0.04 * inch }, costs = { power = 0.14 / (kW * hour), water = 7.50 / kgal, currency = 'USD' }"
assert(near(d.tank.first_flush, 1.016) and near(d.costs.power, 0.14) and near(d.costs.water, 7.5 / 3.785411784))

-- A description is read twice alike, and a number that a script puts in has no
-- unit.
local again = tarn.pond(d)
assert(near(again:description().tank.first_flush, 1.016) and again:bare()[1] == nil)
d = read("return { " .. BASIN .. ", storm = { intensity = 6 * inch_per_day } }")
d.storm.intensity = 25
tarn.pond(d)
assert(d.storm.intensity == 25)

-- Arithmetic, functions and loops.
local _, e = pond("tank = { capacity = total }, edges = area ^ 0.5 * ft, splash = -spray", [[
local total, spray, widest = 0, -2 * gpd, 0 * ft
local function ring(n) return n * 12 * ft2 end
local widths = { 3 * ft, 9 * ft, 4 * ft }
for i = 1, 3 do
  total = total + i * 10 * gal
  if widths[i] > widest then widest = widths[i] end
end
local area = (ring(3) - 9 * ft2) % (20 * ft2) + 9 * ft * widest - (5 * ft // (2 * ft)) * ft2
if widest == 9 * ft and widest ~= 8 * ft and area >= 79 * ft2 then total = total / 2 end
]])
assert(near(e.tank.capacity, 30 * tarn.units.gal), e.tank.capacity)
assert(math.abs(e.edges - math.sqrt(86) * tarn.units.ft2) < 1e-14, e.edges / tarn.units.ft2)
assert(near(e.splash, 2 * tarn.units.gpd))

-- Sums and comparisons of unlike dimensions: the line of the description.
for sum, part in pairs {
  ["4 * ft + 3 * gal"] = "a length + a volume: these are not of one kind",
  ["4 * ft + 5"] = "a length + a plain number: the plain number needs a unit",
  ["7 - 4 * ft"] = "a plain number - a length",
  ["ft < gal"] = "a length < a volume",
  ["3 <= gal"] = "a plain number <= a volume",
  ["ft == gal"] = "a length == a volume",
  ["5 * ft % gal"] = "a length % a volume",
  ["ft ^ 0.1"] = "a length has no such power",
  ["2 ^ ft"] = "an exponent has no unit",
  ["ft .. ''"] = "is no part of a text",
  ["ft * nothing"] = "there is no unit 'nothing'",
  ["ft.metatable"] = "attempt to index a number with a unit",
} do
  local why = refused(part, read, "local a = 1\nreturn { overflow_level = " .. sum .. " }")
  assert(why:find(path .. ":2: ", 1, true), why)
end
refused("a loop counts plain numbers", read, "for x = 1 * ft, 3 * ft do end return {}")

-- A unit that does not fit its field.
for field, part in pairs {
  ["storm = { intensity = 6 * inch }"] = "storm.intensity [mm/h] must be a speed or a rate of depth, got a length",
  ["bed = { area = 12 * ft }"] = "bed.area [m2] must be an area, got a length",
  ["bed = { porosity = 0.4 * ft }"] = "bed.porosity [-] must be a plain number, got a length",
  ["pump = { hours = { 8, 8, 8, 8, 8, 8, 8, 8 * ft, 8, 8, 8, 8 } }"] = "pump.hours[8] must be a time, got a length",
  ["pump = { curve = { { 2000 * gph, 9 * gph }, { 3000 * gph, 0 } } }"] = "pump.curve[1] must be a length, got a flow",
  ["pump = { count = 2 * ft }"] = "pump.count [-] must be a plain number, got a length",
  ["bed = { layers = { { thickness = 2 * ft, diameter = 3 * lb } } }"] = "bed.layers[1].diameter [m] must be a length, got a mass",
  ["supply = { weekdays = { 2 * day } }"] = "supply.weekdays",
  ["water = { temp = 3 * ft }"] = "water.temp [deg C] must be a temperature, got a length",
  ["costs = { water = 7.50 / kWh, currency = 'USD' }"] = "costs.water [money/m3] must be a price a volume, got a price an energy",
  ["costs = { water = 7.50 * kgal, currency = 'USD' }"] = "costs.water [money/m3] must be a price a volume, got a volume",
} do
  refused(part, function() pond(field) end)
end
refused("basin.table[2] must be an area, got a length", function()
  tarn.pond(read "return { basin = { table = { { 0, 3 * ft2 }, { 3 * ft, 9 * ft } } }, overflow_level = 2 * ft }")
end)

-- Bare numbers beside units.
local function bare(text)
  local list, count = tarn.pond(read("return { " .. text .. " }")):bare()
  local names = {}
  for i, b in ipairs(list) do names[i] = b.path .. "|" .. b.beside end
  assert(count == #list)
  return table.concat(names, " "), list
end
local names, list = bare "basin = { length = 24, width = 14 * ft, depth = 3 * ft }, overflow_level = 2.5 * ft"
assert(names == "basin.length|basin.depth", names)
assert(list[1].value == 24 and list[1].unit == "m" and list[1].price == false)
names, list = bare(BASIN .. ", costs = { water = 7.50, currency = 'USD' }")
assert(names == "costs.water|overflow_level" and list[1].price, names)
assert(bare "basin = { length = 7, width = 4, depth = 1 }, overflow_level = 0.9, costs = { water = 7.50, currency = 'USD' }" == "")
assert(bare(BASIN .. ", bed = { porosity = 0.4, area = 30 * ft2, depth = 18 * inch, head = 0 }, pump = { hours = 8, volts = 115, amps = 2, flow = 1500 * gph }") == "")
assert(bare(BASIN .. ", water = { temp = 22, oxygen = 6, elevation = 120 * ft }") == "")
assert(bare(BASIN .. ", bed = { layers = { { thickness = 4 * inch, diameter = 1 * inch, porosity = 0.4 }, { thickness = 0.3, diameter = 0.01, porosity = 0.4 } } }")
  == "bed.layers[2].thickness|bed.layers[1].diameter bed.layers[2].diameter|bed.layers[1].diameter")
assert(bare(BASIN .. ", pump = { curve = { { 0, 9 }, { 2000 * gph, 6 }, { 3000 * gph, 0 } } }") == "pump.curve[1]|pump.curve[2][1]")
assert(bare(BASIN .. ", yard = { length = 40, width = 30 }") == "")

-- They are the first lines of what reads the description.
local function says(command, part)
  local pipe = assert(io.popen(TARN .. " " .. command .. " 2>&1"))
  local text = pipe:read "a"
  pipe:close()
  assert(text:sub(1, 1200):gsub("%s+", " "):find(part, 1, true), part .. " is not in: " .. text:sub(1, 1200))
end
write [[
return {
  basin = { length = 24, width = 14 * ft, depth = 3 * ft }, overflow_level = 2.5 * ft, trigger = 2 * ft,
  bed = { area = 40 * ft2, depth = 2 * ft, porosity = 0.4 }, pump = { flow = 2000 * gph },
  costs = { water = 7.50, currency = "USD" },
}]]
local LENGTH = "CHECK THE DESCRIPTION: basin.length = 24 has no unit; it was read as 24 m, beside basin.depth, which has one."
local PRICE = "costs.water = 7.5 has no unit; it was read as 7.5 USD/m3, beside overflow_level, which has one."
for _, command in ipairs { "topup %s" .. SEATTLE, "bed %s", "sheet %s" .. SEATTLE } do
  says(command:gsub("%%s", path), LENGTH)
  says(command:gsub("%%s", path), PRICE)
end
write [[
return {
  basin = { length = 24 * ft, width = 14 * ft, depth = 3 * ft }, overflow_level = 2.5 * ft, trigger = 2 * ft,
  storm = { intensity = 6 * inch_per_hour, duration = 24 * hour },
}]]
says("topup " .. path .. SEATTLE, "CHECK THE DESCRIPTION: The design storm is 144.00 in of rain in 24 h; the most that was ever measured in 24 h is 71.85 in (Foc-Foc")
write "return { basin = { length = 24, width = 14 * ft, depth = 3 * ft }, overflow_level = 2.5 * ft }"
local json = path .. ".json"
says("convert " .. path .. " --to " .. json, LENGTH)
says("convert " .. json .. " --to " .. path .. ".lua", "Written")

-- A rule of a day, and scripts, count with plain factors.
write "return function(day) if day.level < 36 * inch then day.topup = 0 end end"
assert(tarn.control(path))
assert(tarn.units.inch_per_day == 25.4 and tarn.units.kWh == 1 and 4 * tarn.units.ft == 4 * 0.3048)

for _, name in ipairs { "", ".json", ".lua" } do os.remove(path .. name) end

-- A study's numbers are in the units of their fields too.
local function study(text)
  write("return " .. text)
  local pipe = assert(io.popen(TARN .. " whatif weather-samples/courtyard-pond.lua" .. SEATTLE:gsub(" %-%-map", " " .. path .. " --map") .. " 2>&1"))
  local said = pipe:read "a"
  pipe:close()
  return said
end
for text, part in pairs {
  ["{ inputs = { { field = 'bed.area', low = 1 * ft, high = 9 * ft } } }"] = "bed.area must be an area, got a length",
  ["{ scenarios = { { name = 'a', pond = { pump = { flow = 9 * gal } } } } }"] = "pump.flow must be a flow, got a volume",
  ["{ tank = { roof = 400 * ft, capacities = { 50 * gal } } }"] = "tank.roof must be an area, got a length",
  ["{ tank = { roof = 400 * ft2, capacities = { 50 * gal, 9 * ft } } }"] = "tank.capacity must be a volume, got a length",
  ["{ inputs = { { field = 'rain', low = 0.8 * ft, high = 1.2 * ft } } }"] = "rain takes a number without a unit",
} do
  local said = study(text)
  assert(said:find(part, 1, true), part .. " is not in: " .. said:sub(1, 300))
end
local slow = read "return { high = 1 * inch_per_hour, low = 2, curve = { { 1 * gph, 3 * ft } } }"
assert(near(tarn.study.number(slow, "high", "seepage.rate"), 609.6) and tarn.study.number(slow, "low", "seepage.rate") == 2)
assert(near(tarn.study.number(slow.curve[1], 2, "pump.curve[1][2]"), 0.9144))
assert(tarn.study.number(slow, "none", "overflow_level") == nil)
local function leaks(rate)
  return study("{ scenarios = { { name = 'a leak', pond = { seepage = { rate = " .. rate .. " } } } } }"):match "a leak [^\n]+"
end
assert(leaks "0.01 * inch_per_hour" == leaks "0.24 * inch_per_day" and leaks "0.01 * inch_per_hour" ~= leaks "0.01 * inch_per_day")
os.remove(path)

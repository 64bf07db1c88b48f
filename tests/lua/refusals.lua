-- SPDX-License-Identifier: MIT
-- What each binding refuses, and the words in which it says so: a row is the
-- part that must be told, a function, and its arguments.
local study, weather, bed, flow = tarn.study, tarn.weather, tarn.bed, tarn.flow

local function refuses(rows)
  for i, row in ipairs(rows) do
    local fine, message = pcall(table.unpack(row, 2, row.n or #row))
    message = tostring(message)
    assert(not fine and message:find(row[1], 1, true), ("row %d: '%s' is not in: %s"):format(i, row[1], message))
  end
end

local function copy(t)
  local out = {}
  for k, v in pairs(t) do out[k] = type(v) == "table" and copy(v) or v end
  return out
end

local pond = tarn.pond(tarn.description "weather-samples/courtyard-pond.lua")
local days = { first = "2024-07-01", latitude = 47.5, elevation = 50, wind_height = 10,
  tmin = { 10, 11, 12 }, tmax = { 20, 21, 22 }, wind = { 2, 2, 2 }, rain = { 0, 5, 0 } }
local three_days = weather.table(days)

local function without(name)
  local t = copy(days)
  t[name] = nil
  return weather.table(t)
end

local function with(name, value)
  local t = copy(days)
  t[name] = value
  return t
end

-- ---- weather: tables, maps of files -----------------------------------------------
local text = "date,tmin,tmax\n2024-07-01,1,2\n"
local function map(t) return weather.parse, text, t end
refuses {
  { "text must be a string", weather.parse, 1 },
  { "path must be a string, got table", weather.read, {} },
  { "weather must come from", pond.run, pond, 7 },
  { "tmin must be a list of numbers", weather.table, with("tmin", "cold") },
  { "name must be a text of at most 63", weather.table, with("name", 7) },
  { "name must be a text of at most 63", weather.table, with("name", ("n"):rep(500)) },
  { "no weather column is called 'snowfall_mm': they are tmin", three_days.fill, three_days, { columns = { "snowfall_mm" } } },
  { "columns must be a list of names", three_days.fill, three_days, { columns = "tmin" } },
  { "columns must be a list of names", three_days.fill, three_days, { columns = { 7 } } },
  { "header must be true or false", map { header = "no" } },
  { "columns must be a table, got number", map { columns = 1 } },
  { "columns must have names of columns as its keys", map { columns = { "rain" } } },
  { "no weather column is called 'rian': did you mean 'rain'?", map { units = { rian = "mm" } } },
  { "units must be shorter than", map { units = ("x"):rep(300) } },
  { "layout must be a text of at most 15", map { layout = true } },
  { "skip must be a whole number", map { skip = -1 } },
  { "missing must be a string or a list", map { missing = 7 } },
  { "missing can hold", map { missing = { "a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l", "m", "n", "o", "p", "q" } } },
  { "reject must be a string or a list of strings", map { columns = { rain = { name = "rain", flag = { name = "f", reject = 7 } } } } },
  { "delimiter must be shorter than 2", map { delimiter = ";;" } },
  { "order must be one of", map { order = "upside down" } },
  { "weather has no rain", pond.run, pond, without "rain" },
}

-- Each way to say where a column stands gives the same weather.
do
  local file = "# made up\nd;lo;hi;wet;q\n1.7.2024;1,5;9;3;ok\n2.7.2024;2;8,5;5;worse\n3.7.2024;NA;7;0;fine\n"
  local date = { name = "d", format = "%d.%m.%Y" }
  local how = { skip = "# made up", delimiter = ";", decimal = ",", date = date, missing = "NA" }
  local flag = { index = 5, reject = { "worse", "bad" }, quiet = { "fine" } }
  for _, place in ipairs { 4, { index = 4 }, "wet", { name = "wet", occurrence = 1 } } do
    local t = copy(how)
    t.columns = { tmin = { name = "lo", unit = "degC" }, tmax = { name = "hi", unit = "degC" }, rain = false }
    t.columns.rain = type(place) == "table" and { unit = "mm", flag = flag } or place
    for k, v in pairs(type(place) == "table" and place or {}) do t.columns.rain[k] = v end
    if type(place) ~= "table" then t.units = { rain = "mm" } end
    local w = weather.parse(file, t)
    local summary = w:summary()
    assert(#w == 3 and summary.tmin.missing == 1)
    assert(summary.rain.missing == (type(place) == "table" and 1 or 0))
  end
end

-- Words in one text or in a list, a place by its number, a date by its name.
do
  local file = "d,hi,wet,q\n2024-07-01,9,3,ok\n2024-07-02,8,5,worse\n2024-07-03,7,0,bad\n"
  for _, reject in ipairs { "bad worse", { "bad", "worse" } } do
    local w = weather.parse(file, { header = true, date = "d", units = { tmax = "C", rain = "mm" }, missing = { "NA", "-" },
      columns = { tmax = "hi", rain = { name = "wet", flag = { name = "q", reject = reject } } } })
    assert(#w == 3 and w:summary().rain.missing == 2 and w:summary().tmax.missing == 0)
  end
  -- a total over two days, and how many days it is of
  local sums = "d,wet,sum,days\n2024-07-01,0,,\n2024-07-03,,6,2\n2024-07-04,1,,\n"
  local w = weather.parse(sums, { date = "d", totals = "spread", units = { rain = "mm" },
    columns = { rain = "wet", total = { name = "sum", unit = "mm" }, total_days = { name = "days" } } })
  assert(math.abs(w:summary().rain.mean - 7 / 4) < 1e-12)
end

-- ---- basins and ponds -----------------------------------------------------------
local basin = tarn.basin.table { { 0, 1 }, { 1, 4 } }
refuses {
  { "basin.table[2] must be a pair of numbers", tarn.basin.table, { { 0, 1 }, { 1 } } },
  { "basin.table[2] must be a pair of numbers", tarn.basin.table, { { 0, 1 }, { 1, "wide" } } },
  { "basin expected", tarn.basin.table { { 0, 1 }, { 1, 4 } }.volume, 3, 1 },
  { "level is missing", pond.endurance, tarn.pond { basin = basin, overflow_level = 0.9 }, three_days },
}

local function described(change)
  local t = { basin = basin, overflow_level = 0.9, trigger = 0.5, target = 0.6 }
  for k, v in pairs(change) do t[k] = v end
  return tarn.pond, t
end
refuses {
  { "bed must be a table of fields, got number", described { bed = 7 } },
  { "yard must be a table of fields, got string", described { yard = "big" } },
  { "yard.corners must be a list of 3 to", described { yard = { corners = { { x = 0, y = 0 } } } } },
  { "has an entry without a name", described { "a pond" } },
  { "bed has an entry without a name", described { bed = { 3 } } },
  { "supply.weekdays must be a list, got string", described { supply = { weekdays = "mon" } } },
  { "is none of \"mon\" .. \"sun\" or 1 .. 7", described { supply = { weekdays = { 8 } } } },
  { "mixes a date of one year", described { supply = { closed = { { from = "2024-07-01", to = "08-01" } } } } },
  { "ends before it begins", described { supply = { closed = { { from = "2024-07-02", to = "2024-07-01" } } } } },
  { "name must be a text", described { name = "\xe2\x28\xa1" } },
  { "name must be a text", described { name = "\xed\xa0\x80" } },
  { "name must be a text", described { name = "\xc2\x85" } },
  { "pump.curve must be a list of 0 to 24", described { pump = { curve = (function()
    local t = {}
    for i = 1, 100 do t[i] = { i / 1000, 10 - i / 100 } end
    return t
  end)() } } },
  { "pipes[1].fittings must be a table", described { pipes = { { length = 1, diameter = 0.05, fittings = 3 } } } },
  { "pipes[1].fittings takes at most", described { pipes = { { length = 1, diameter = 0.05, fittings = (function()
    local t = {}
    for name in ("entrance flush,entrance projecting,entrance rounded,entrance bell,exit,90 elbow threaded,90 elbow flanged,"
        .. "90 elbow miter,45 elbow threaded,tee run threaded,tee branch threaded,tee run flanged,gate open"):gmatch "[^,]+" do
      t[name] = 1
    end
    return t
  end)() } } } },
}
assert(tarn.pond { basin = basin, overflow_level = 0.9, name = "Träne \u{20ac} \u{1f41f}" })
assert(tarn.pond { basin = basin, overflow_level = 0.9, supply = { weekdays = { 1, "wed" }, months = { 7 } } })

-- ---- studies -------------------------------------------------------------------
local function made(change)
  local t = { pond = pond, weather = three_days, columns = { { field = "bed.area", set = { 1, 2 } } } }
  for k, v in pairs(change) do t[k] = v end
  return study, t
end
local two = study { pond = pond, weather = three_days, columns = { { field = "bed.area", set = { 1, 2 } } } }
assert(tostring(two) == "study: 2 variants, 1 weathers")
refuses {
  { "ponds: entry 1 is no pond", study, { ponds = { 7 }, weather = three_days } },
  { "columns: each needs a field", made { columns = { { set = { 1 } } } } },
  { "columns: entry 1 must be a table", made { columns = { 7 } } },
  { "give one of set, times or plus", made { columns = { { field = "bed.area" } } } },
  { "has 1 values, the columns before it 2", made { columns = { { field = "bed.area", set = { 1, 2 } },
    { field = "rain", set = { 1 } } } } },
  { "set[1] must be a number (or false for none), got boolean", made { columns = { { field = "rain", set = { true } } } } },
  { "set must be a list", made { columns = { { field = "rain", set = 7 } } } },
  { "pond_of has 1 entries for 2 variants", made { pond_of = { 1 } } },
  { "pond_of: entry 2 is no pond's number", made { pond_of = { 1, 2 } } },
  { "topup must be true or false", made { topup = 1 } },
  { "each_day must be a function", made { each_day = 1 } },
  { "values: there is no 'top'", two.run, two, { values = { "top" } } },
  { "threads must be a whole number", two.run, two, { threads = 1.5 } },
  { "parts: entry 1 is no record", study.merge, { 7 } },
  { "levels: entry 1 must be 1 or more", study.grid, { 0 } },
  { "more than 10 million rows", study.grid, { 1e4, 1e4 } },
  { "low has 1 numbers, high 2", study.one_at_a_time, { 1 }, { 1, 2 } },
  { "1 + 2 for each input, got 2", study.swings, { 1, 2 } },
  { "do not come from samples of 2 columns", study.sensitivity, { 1, 2, 3 }, 2 },
  { "capacities has 1 numbers, shares 2", study.tank_capacity, { 1 }, { 1, 2 }, 0.5 },
  { "seed must be a whole number", study.latin, 10, 2, 1.5 },
  { "seed must be", study.latin, 10, 2, -1 },
  { "more than 100 million numbers", study.latin, 1e7, 11 },
  { "more than 100 million numbers", study.sensitivity_samples, 1e6, 10 },
  { "budget.unit is missing", study.budget { reference = 51, unit = 0.62, area = 1, adjustment = 0.7, plant_factor = 1 }
    and study.budget, { reference = 51, area = 1, adjustment = 0.7, plant_factor = 1 } },
  { "generate.years: ends after 2200", study.generate, three_days, { years = 400, first = 2000 } },
  { "fewer than 10", study.generate, three_days, { years = 1 } },
}

-- Which pond each variant starts from, with and without columns beside it.
do
  local other = tarn.pond { basin = basin, overflow_level = 0.9, trigger = 0.5, target = 0.6 }
  local alone = study { ponds = { pond, other }, weather = three_days, pond_of = { 2, 1 } }:run().values.topup
  for i, p in ipairs { other, pond } do
    assert(math.abs(alone[i] - p:run(three_days):totals().topup) < 1e-9)
  end
  local whole = two:run { values = { "topup" } }
  refuses {
    { "each_day", two.run, study { pond = pond, weather = three_days, columns = { { field = "each_day", set = { 1 } } } } },
    { "resume: the record holds other values", two.run, two, { values = { "overflow" }, resume = whole.record } },
    { "record", two.run, two, { resume = "not a record" } },
  }
end

-- ---- beds ------------------------------------------------------------------------
refuses {
  { "gravel.depth is missing", bed.headloss, { velocity = 0.001, diameter = 0.01, porosity = 0.4 } },
  { "sieves must be a list", bed.sieve, {} },
  { "areas must be a list of 1 to 10000", bed.tradeoff, { areas = (function()
    local t = {}
    for i = 1, 10001 do t[i] = i end
    return t
  end)(), depths = { 1 }, flows = { 1 } } },
}

-- The gradient of Ergun's equation, a + b v, times v: the table agrees with itself.
do
  local g = bed.gravel { diameter = 0.01, porosity = 0.4, velocity = 0.002 }
  assert(math.abs(g.gradient - (g.linear + g.quadratic * 0.002) * 0.002) < 1e-12 * g.gradient)
  assert(math.abs(g.pore_velocity - 0.005) < 1e-15)
  local back = bed.gravel { diameter = 0.01, porosity = 0.4, gradient = g.gradient }
  assert(math.abs(back.velocity - 0.002) < 1e-9)
end

-- ---- flow, leak, takeoff ---------------------------------------------------------
local curve = { { 0, 3 }, { 0.001, 2 }, { 0.002, 0.5 } }
local branches = { { pipe = { length = 10, diameter = 0.05 } } }
refuses {
  { "network.pumps is given beside pump", flow.network, { pump = { curve = curve }, pumps = { { curve = curve } }, branches = branches } },
  { "peak needs intensity", flow.peak, {} },
  { "pond must come from tarn.pond, got nil", tarn.pair, {} },
  { "day.wind must be", tarn.evaporation.open_water, { wind = "1950" } },
}
-- two pumps side by side give what one of twice the flow gives
do
  local big = {}
  for i, p in ipairs(curve) do big[i] = { 2 * p[1], p[2] } end
  local branch = { { lift = 1, resistance = 1e5 } }
  local a = flow.network { branches = branch, pumps = { { curve = curve }, { curve = curve } } }
  local b = flow.network { branches = branch, pump = { curve = big } }
  assert(math.abs(a.flow - b.flow) < 1e-6 * b.flow and math.abs(a.pump_flows[1] - b.flow / 2) < 1e-6 * b.flow)
end
assert(math.abs(tarn.takeoff.shoreline_area(2 * math.pi) - math.pi) < 1e-12) -- a circle of 1 m

-- ---- a terminal is shown one plain line, whatever a name holds --------------------
refuses {
  { "unknown field 'li?[2Jp'", described { ["li\27[2Jp"] = 1 } },
  { "unknown field 'lip?tarn: done'", described { ["lip\ntarn: done"] = 1 } },
}

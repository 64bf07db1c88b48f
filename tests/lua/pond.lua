-- SPDX-License-Identifier: MIT
-- The Lua side of pond, basin, ledger and units.
local u = tarn.units

local function near(got, want, tol)
  assert(math.abs(got - want) <= (tol or 1e-12), ("got %.15g, want %.15g"):format(got, want))
end

local function refused(part, f, ...)
  local ok, message = pcall(f, ...)
  assert(not ok, "accepted: " .. part)
  assert(tostring(message):find(part, 1, true), ("'%s' is not in: %s"):format(part, message))
end

-- units
near(u.ft, 0.3048)
near(u.celsius(50), 10)
near(u.fahrenheit(10), 50)

-- basins
local box = tarn.basin.table { { 0, 10 }, { 1.2, 10 } }
near(box:volume(0.5), 5)
near(box:level(5), 0.5)
near(box:area(0.7), 10)
assert(box:top() == 1.2 and box:floor() == 0 and box:scale() == 1)
assert(tostring(box):find("1.2 m deep"))
refused("level [m] must be 0 to 1.2, got 1.3", box.area, box, 1.3)
refused("volume [m3] must be 0 to 12, got -1", box.level, box, -1)
refused("basin.table[2] must be a pair", tarn.basin.table, { { 0, 1 }, { 1 } })
refused("levels must rise", tarn.basin.table, { { 1, 1 }, { 0, 2 } })

local shelved = tarn.basin.shelved {
  shape = "rectangle", length = 5, width = 4, depth = 1.2,
  shelves = { { depth = 0.2, width = 0.3 }, { depth = 0.6, width = 0.4 } },
}
near(shelved:volume(1.2), 9.36 * 0.6 + 14.96 * 0.4 + 20 * 0.2)
refused("unknown field 'basin.shelves[1].widht': did you mean 'width'?", tarn.basin.shelved,
  { length = 3, width = 2, depth = 1, shelves = { { depth = 0.2, widht = 1 } } })

local square = function(side)
  return { { 0, 0 }, { side, 0 }, { side, side }, { 0, side } }
end
local contours = tarn.basin.contours {
  { level = 0, points = square(1) }, { level = 1, points = square(3) },
}
near(contours:area(1), 9)
near(contours:volume(1), 5)
refused("basin.contours[1].points is missing", tarn.basin.contours, { { level = 0 }, { level = 1 } })

-- a pond, run over a weather made in a script
local weather = tarn.weather.table {
  first = "2015-07-06",
  rain = { 0, 10, 30 }, open_water = { 4, 2, 1 }, reference = { 4, 2, 1 },
}
local pond = tarn.pond {
  basin = box, overflow_level = 1, trigger = 0.95, target = 0.98, edges = 1, splash = 10 * u.lpd,
  bed = { area = 2, volume = 0.4, plant_factor = 1.5 },
  stream = { area = 1, depth = 0.05, factor = 1.5 },
  apron = { area = 5, coefficient = 0.8 },
  seepage = { rate = 1 * u.mm_per_day },
  supply = { rate = 150 * u.lpd, closed = { { from = "07-14", to = "07-14" } } },
}
assert(tostring(pond):find("overflow at 1 m"))
-- a name of the version before is read, and told
assert(#pond:old_names() == 0)
local old = tarn.pond { basin = box, lip = 1, bed = { area = 2, regime = "bog" } }:old_names()
table.sort(old, function(a, b) return a.path < b.path end)
assert(#old == 2 and old[1].path == "bed.regime" and old[1].name == "kind" and old[2].name == "overflow_level")
assert(tarn.path_now "bed.head" == "bed.lip_head" and tarn.path_now "bed.lip_head" == nil)
local facts = pond:facts()
near(facts.transit, 0.05)
near(facts.collecting, 14)
near(facts.fall_ratio, 1.3)
near(pond:swing(0.98).stopped, 0.985)
refused("level [m] must be 0 to 1", pond.swing, pond, 1.1)

local ledger = pond:run(weather, { method = "given" })
assert(#ledger == 3)
assert(ledger:report().method == "given")
local days = ledger:days()
near(days[1].volume, 9.722)
near(days[2].volume, 9.853)
near(days[3].overflow, 0.393)
near(days[3].level, 0.99655)
near(ledger:depth(0.01), 1)
assert(days[3].spilled and days[3].running and not days[3].dry)
assert(days[1].date == "2015-07-06")
local totals = ledger:totals()
near(totals.rain, 0.014 * 40)
-- a run has no month and no week, a week no month, a year no week
assert(not (totals.year or totals.month or totals.week or totals.week_year))
assert(ledger:weeks()[1].week_year == 2015 and not ledger:weeks()[1].month)
assert(ledger:years()[1].year == 2015 and not ledger:years()[1].month and not ledger:months()[1].week)
assert(totals.days == 3 and totals.residual < 1e-9)
assert(#ledger:weeks() == 1 and not ledger:weeks()[1].complete)
assert(ledger:weeks()[1].week == 28 and ledger:months()[1].month == 7)
assert(ledger:years()[1].year == 2015)
assert(tostring(ledger):find("3 days"))

-- a control for each day sees the state and changes the order
local seen = {}
local ruled = pond:run(weather, {
  method = "given",
  each_day = function(day)
    seen[#seen + 1] = day.date .. ("%.3f"):format(day.level)
    day.pump_hours = 0
    if day.date == "2015-07-07" then day.topup = 0.05 end
  end,
})
assert(#seen == 3 and seen[1] == "2015-07-060.980")
near(ruled:days()[2].topup, 0.05)
assert(ruled:totals().running == 0)
refused("boom", pond.run, pond, weather, { method = "given", each_day = function() error("boom") end })
refused("day.pump_hours [h] must be 0 to 24, got 25", pond.run, pond, weather,
  { method = "given", each_day = function(day) day.pump_hours = 25 end })
refused("unknown field 'day.Topup': did you mean 'topup'?", pond.run, pond, weather,
  { method = "given", each_day = function(day) day.Topup = 5 end })
refused("unknown field 'day.mnth'", pond.run, pond, weather,
  { method = "given", each_day = function(day) return day.mnth == 7 end })
refused("supply_open must be true or false", pond.run, pond, weather,
  { method = "given", each_day = function(day) day.supply_open = 0 end })
refused("each_day must be a function", pond.run, pond, weather, { method = "given", each_day = 3 })

-- no top-up, part of the weather, another start
local part = pond:run(weather, { method = "given", first = "2015-07-07", start_level = 0.5, topup = false })
assert(#part == 2 and part:totals().topup == 0 and part:totals().unmet == 0)
near(part:totals().start_level, 0.5)

local endurance = pond:endurance(weather, { method = "given", level = 0.975 })
assert(#endurance == 3 and endurance[1] == 1 and endurance[2] == false)
refused("level is missing", pond.endurance, pond, weather, { method = "given" })

-- refusals name the field
refused("unknown field 'frist': did you mean 'first'?", pond.run, pond, weather, { frist = "2015-07-06" })
refused("start_level [m] must be 0 to 1, got 2", pond.run, pond, weather, { start_level = 2 })
refused("first must be a date", pond.run, pond, weather, { first = "yesterday" })
refused("last is 2015-07-07, which comes before first, 2015-07-08", pond.run, pond, weather, { first = "2015-07-08", last = "2015-07-07" })
refused("first must be a day of the weather, 2015", pond.run, pond, weather, { first = "2014-01-01" })
refused("topup must be true or false", pond.run, pond, weather, { topup = 1 })
refused('method must be one of "auto", "penman_1956"', pond.run, pond, weather, { method = "magic" })
refused("unknown field 'bed.are'", tarn.pond, { basin = box, overflow_level = 1, bed = { are = 2 } })
refused("bed must be a table of fields", tarn.pond, { basin = box, overflow_level = 1, bed = 2 })
refused("costs.water", tarn.pond, { basin = box, overflow_level = 1, costs = { water = "free" } })
-- the place in words, and numbers before them
local function placed(site, evaporation)
  return tarn.pond { basin = box, overflow_level = 1, site = site, evaporation = evaporation }:place()
end
local place = placed({ sun = "half shade", station = "5 km" }, { shelter = 0.4 })
assert(place.shade == 0.65 and place.sun == "half shade" and not place.shade_given)
assert(place.shelter == 0.4 and place.shelter_given == 0.4 and place.wind == "not described")
assert(placed().shelter == 0.5 and placed().shade == 0.8)
refused("did you mean 'half shade'", placed, { sun = "half sahde" })
refused("site.measured", placed, { measured = 7 })
refused("evaporation.shelter", tarn.pond, { basin = box, overflow_level = 1, evaporation = { shelter = 7 } })
refused("pond must come from tarn.pond", pond.facts, box)

-- withdrawals on a schedule
local drawn = tarn.pond {
  basin = box, overflow_level = 1, withdrawals = { { volume = 0.1, weekdays = { "tue" } } },
}
local d = drawn:run(weather, { method = "given" }):days()
assert(d[1].withdrawal == 0)
near(d[2].withdrawal, 0.1)

-- runoff
near(tarn.runoff(25.4, 98) / 25.4, 0.79, 0.005)   -- TR-55 Table 2-1
refused("curve number must be 1 to 100", tarn.runoff, 10, 0)

-- fields of the description are told for the reference
local sections = {}
for _, section in ipairs(tarn.pond_fields()) do
  sections[section.section] = section
  assert(#section + #section.beside > 0)
end
assert(sections.bed and sections.basin and sections[""] and sections.evaporation)

-- files: whole or not at all
local path = os.tmpname()
tarn.write_file(path, "one\n")
tarn.write_file(path, "two\n")
assert(io.open(path):read("a") == "two\n")
os.remove(path)
refused("cannot write", tarn.write_file, "/nowhere/at/all", "x")
refused("pond: no", tarn.mistake, "pond: no")
assert(tarn.nearest("unit", { "units", "first" }) == "units")

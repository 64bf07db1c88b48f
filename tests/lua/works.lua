-- SPDX-License-Identifier: MIT
-- The Lua side of works and takeoff: description, chart, storm, quantities.
local u = tarn.units

local function near(got, want, tol)
  assert(math.abs(got - want) <= (tol or 1e-9), ("got %.15g, want %.15g"):format(got, want))
end

local function refused(part, f, ...)
  local ok, message = pcall(f, ...)
  assert(not ok, "accepted: " .. part)
  assert(tostring(message):find(part, 1, true), ("'%s' is not in: %s"):format(part, message))
end

local function description(more)
  local d = {
    basin = { length = 5, width = 2, depth = 1.2 }, overflow_level = 1.1, target = 1, trigger = 0.95, intake = 0.7,
    pump = { curve = { { 0, 5 }, { 1e-3, 4.5 }, { 2e-3, 3.2 }, { 3e-3, 0 } } },
    pipes = { { name = "up", to = "bed", size = "1.5", length = 8, lift = 0.9, fittings = { ["90 elbow threaded"] = 3 } } },
    bed = { area = 2, depth = 0.6, porosity = 0.4 },
    falls = { { bed = true, width = 0.5, drop = 0.3 } },
    stream = { length = 3, width = 0.4, slope = 0.05, manning = 0.035 },
    overflow = { width = 0.3, clogging = 0.5 }, storm = { intensity = 50, duration = 30 * u.minute },
    catchments = { { name = "roof", area = 20, coefficient = 0.9 } },
    build = { bed_dug = 0, stream_dug = 0 },
  }
  for key, value in pairs(more or {}) do d[key] = value end
  return d
end

local told = description()
local pond = tarn.pond(told)
local again = tarn.pond(told)            -- reading leaves the description as it was
near(again:works().flow, pond:works().flow, 0)
local w = pond:works()
assert(w.from_curve and w.flow > 1e-3 and w.flow < 3e-3)
near(w.bed_flow, w.flow, 1e-15)
assert(w.continuity <= 1e-10 and w.energy <= 1e-10)
assert(w.bed_from == "solved" and w.stream_from == "solved" and w.drain_from == "solved")
near(pond:facts().transit, w.bed_transit + w.stream_transit + w.drain_transit + w.pools_transit, 1e-15)
near(w.bed_transit, 2 * w.falls[1].head, 1e-15)
assert(w.falls[1].lip_depth < w.falls[1].head and w.runs[1].velocity > 1)
assert(w.low_flow < w.flow and w.stream.froude > 0)

-- what is given stands
local given = tarn.pond(description { pump = { flow = 1e-3, drainback = 0.02 }, pipes = false or nil })
near(given:works().drain_transit, given:works().pipes >= 0 and 0.02)
assert(given:works().drain_from == "given" and not given:works().from_curve)

-- levels and storm
local chart = pond:chart()
assert(chart[1].name == "edge" and chart[#chart].name == "floor" and not chart.spills)
local sum = 0
for i, level in ipairs(chart) do
  sum = sum + level.between
  assert(i == 1 or level.level <= chart[i - 1].level)
end
near(sum, 12)
local storm = pond:storm()
near(storm.balance, 0)
near(storm.peak, (pond:facts().collecting + 18) * 0.05 / 3600, 1e-12)
assert(storm.edge_left > 0 and storm.clear_head < storm.clogged_head)
local plain = tarn.pond { basin = { length = 5, width = 2, depth = 1.2 }, overflow_level = 1.1 }
assert(plain:storm() == nil and plain:works().flow == nil and plain:works().drain_from == "unknown")

-- quantities, by the method and by the call
local t = pond:takeoff()
near(t.dig, 12)
near(t.sheet_length, t.rule_length)
assert(#t.items > 5 and t.items[1].unit == "m3" and t.displaced_by == "light")
assert(t.totals[1].name == "dig" and t.totals[1].amount == t.dig and not t.totals[1].unknown)
assert(t.totals[2].name == "liner" and not t.totals[2].amount and t.totals[2].unknown:find "^bed liner: bed.length")
assert(#pond:profile() == 2 and pond:profile()[1].length == 5)
near(tarn.takeoff.loose(10, 0.3), 13)
assert(tarn.takeoff.loads(1300, 7) == 186 and tarn.takeoff.soils["clay damp"].swell == 0.40)
assert(tarn.takeoff.soils["clay damp"].evidence == "common practice, no source")
near(tarn.takeoff.simpson({ 1, 1, 1 }, 2), 4)
near(tarn.takeoff.prismoid(10, 18, 20, 10), 170)
refused("odd number of areas", tarn.takeoff.simpson, { 1, 1 }, 1)
refused("swell must be 0 to 2", tarn.takeoff.loose, 1, 3)
local table_pond = tarn.pond { basin = { table = { { 0, 8 }, { 1, 10 } } }, overflow_level = 0.9 }
refused("build.length and build.width", table_pond.takeoff, table_pond)

-- refusals name the field
refused("pipes must be a list", tarn.pond, description { pipes = { length = 2 } })
refused("unknown field 'pipes[1].lenght': did you mean 'length'?", tarn.pond, description { pipes = { { lenght = 2 } } })
refused("pipes[1] must be a table", tarn.pond, description { pipes = { 7 } })
refused("pipes[1].fittings must be a table", tarn.pond, description { pipes = { { size = "2", length = 2, fittings = 3 } } })
refused("unknown field 'bay.sil'", tarn.pond, description { bay = { sil = 0.3 } })
refused("plants must be a text", tarn.pond, description { plants = 3 })
refused("build.soil must be one of", tarn.pond, description { build = { soil = "sand" } })
refused("pump.curve[1] must be a pair", tarn.pond, description { pump = { curve = { { 1 } } } })

local sections = {}
for _, section in ipairs(tarn.pond_fields()) do sections[section.section] = section end
assert(sections.pipes and sections.falls and sections.bay and sections.overflow and sections.storm and sections.catchments
  and sections.build)

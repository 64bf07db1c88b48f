-- SPDX-License-Identifier: MIT
-- pond:bed_plan(): the library's plan of a described bed.
local function pond(more)
  local d = {
    basin = { shape = "rectangle", length = 5, width = 3, depth = 1 }, overflow_level = 0.9, pump = { flow = 2e-3 },
    bed = { length = 2, width = 2, depth = 0.6, porosity = 0.38, diameter = 0.02, cover = 0.05, drop = 0.4 },
    fish = { feed = 0.05 },
  }
  for name, section in pairs(more or {}) do d[name] = section or nil end
  return tarn.pond(d)
end

local function check(result, id)
  for _, c in ipairs(result.checks) do
    if c.id == id then return c end
  end
end

local function refuses(more, message)
  local fine, why = pcall(function() return pond(more):bed_plan() end)
  assert(not fine and tostring(why):find(message, 1, true), ("%s: %s"):format(message, why))
end

-- ---- the bed described ------------------------------------------------------------

local plan = pond():bed_plan()
local r = plan:result()
assert(r.chosen == "described" and r.flow == 2e-3 and r.flow_from == "pump" and r.does)
assert(r.sized.area == 4 and r.length == 2 and r.width == 2)
assert(math.abs(r.sized.loading - 2e-3 * 86400 / 4) < 1e-12)
assert(r.wish.cover == 0.05 and r.wish.clogging == 10 and r.wish.temp == 20 and r.wish.direction == "upflow")
assert(r.loaded and r.waste.feed_g == 50 and not r.fit)
assert(#r.demands == 1 and r.demands[1].name == "oxygen")

local bod = check(r, "bod")
assert(bod.high == 6 and bod.low == nil and bod.verdict == "holds" and bod.unit == "g/m2/d")
assert(bod.evidence == "from memory" and bod.source:find("US EPA", 1, true))
assert(math.abs(bod.margin - 6 / bod.value) < 1e-12)
assert(check(r, "head").high == 0.4 and check(r, "lip").high == 0.05 and check(r, "oxygen").low == 2)
assert(check(r, "room") == nil and check(r, "outlet") == nil)

-- the same as the sizing by itself
local sized = tarn.bed.size { area = 4, width = 2, flow = 2e-3, pond_area = 15, pond_volume = 13.5, feed_g = 50, depth = 0.6,
  porosity = 0.38, diameter = 0.02, cover = 0.05, available_head = 0.4, temp = 20 }
for name, value in pairs(sized) do
  if type(value) == "number" then assert(r.sized[name] == value, name) end
end

-- ---- what is beside it ---------------------------------------------------------------

local map = plan:cells "map"
assert(#map.areas == 40 and #map.depths == 25 and #map.flows == 1 and #map.cells == 1000)
assert(map.cells[26].area == map.areas[2] and map.cells[26].depth == map.depths[1])
local full = plan:cells "full"
assert(#full.cells == 20 * 5 * 10 and full.cells[2].flow == full.flows[2])
assert(not pcall(plan.cells, plan, "no such grid"))
assert(plan:stone() == nil)
local chance = plan:chance()
assert(chance.inputs.samples == 2000 and chance.refused >= 0 and chance.residence.p5 < chance.residence.p95)
local rates = plan:rates()
assert(rates[1].name == "hf-ammonia-2009" and not rates[1].described and rates[#rates].trial)

local rated = pond { treatment = { rate = "hf-ammonia-2009", k = 20 } }:bed_plan()
assert(rated:rates()[1].described and rated:rates()[1].k_m_yr == 20)
assert(rated:result().k_low == 0.02)

local layered = pond { bed = { length = 2, width = 2, cover = 0.05, layers = {
  { name = "chamber", thickness = 0.2, porosity = 0.95 }, { thickness = 0.5, diameter = 0.03, porosity = 0.4 } } } }:bed_plan()
assert(layered:result().chamber and layered:result().full_depth == 0.7)
local stone = layered:stone()
assert(#stone.layers == 2 and stone.layers[1].name == "chamber" and math.abs(stone.layers[2].wet - 0.45) < 1e-12)

local roomy = pond { yard = { length = 4, width = 3 } }:bed_plan():result()
assert(roomy.fit.area > 0 and check(roomy, "room").verdict == "holds")

-- an earlier plan saves the search of the yard, and changes no figure
local yard = { length = 4, width = 3, setback = 0.2 }
local first = pond { yard = yard }:bed_plan()
for _, other in ipairs { yard, { length = 3, width = 3 } } do
  local a, b = pond { yard = other }:bed_plan(first):result().fit, pond { yard = other }:bed_plan():result().fit
  for name, value in pairs(a) do assert(name == "corners" or b[name] == value, name) end
end

-- the head over the bed's own lip follows the flow
local fallen = pond { falls = { { bed = true, width = 0.5, kind = "stone" } } }:bed_plan():result()
assert(fallen.head_from == "solved" and math.abs(1.6 * 0.5 * fallen.lip_head ^ 1.5 - 2e-3) < 1e-12)

-- ---- refusals, in their order and by the description's names ----------------------------

local order = tarn.bed.refusals()
assert(order[1] == "does_not_fit" and #order == 7)
refuses({ fish = {} }, "fish needs feed (a day) or mass")
refuses({ pump = { flow = 0 } }, "pump.flow is 0")
refuses({ treatment = { ammonia = 0.5 } }, "treatment.k is missing")
refuses({ treatment = { ammonia = 0.5, k = 300 }, fish = false }, "treatment.ammonia needs the load")
refuses({ demand = { fall_width = 1 } }, "demand.fall_width and fall_depth go together")
refuses({ bed = { length = 2, width = 2 } }, "bed.layers are missing")

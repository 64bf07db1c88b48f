-- SPDX-License-Identifier: MIT
-- From a description to a sized bed: demand, load, room, every rule, the
-- trade-off and the chances.  Numbers only, SI; others print them.
local inputs = require "common.inputs"

local plan = {}

local DAY = 86400

local defaults = {}
for _, section in ipairs(tarn.pond_fields()) do
  local of = defaults[section.section] or {}
  for _, row in ipairs(section) do of[row.name] = row.default end
  defaults[section.section] = of
end

-- Field of a description, or what the library takes without it.
function plan.field(job, section, name)
  local given = job.d[section] and job.d[section][name]
  if given ~= nil then return given end
  return defaults[section][name]
end

-- The library's words for what a description calls otherwise.
local WORDS = {
  { "^size%.pond_target", "treatment.ammonia" }, { "^size%.target", "treatment.outlet" },
  { "^size%.inlet", "treatment.inlet" }, { "^size%.k_m_yr", "treatment.k" },
  { "^size%.ammonia_g is missing.*", "treatment.ammonia needs the load: describe the fish (feed or mass)" },
  { "^size%.flow", "pump.flow" }, { "^size%.(%a+)", "bed.%1" }, { "^depth ", "bed.depth " },
  { "^size has nothing to size by.*", "bed has nothing to size by: give it length and width (or area), loading, " ..
    "regime, surface_share or volume_share, or describe fish or treatment" },
}

-- Calls f; what it refuses is said in the description's words, with its line.
local function asked(job, f, ...)
  local result = table.pack(pcall(f, ...))
  if result[1] then return table.unpack(result, 2, result.n) end
  local message = tostring(result[2])
  for _, word in ipairs(WORDS) do
    local other, count = message:gsub(word[1], word[2])
    if count > 0 then message = other break end
  end
  inputs.located(job.path, job.source, error, message, 0)
end

local function refuse(job, message)
  asked(job, error, message, 0)
end

-- ---- demand --------------------------------------------------------------------

local function load_of(job)
  local fish = job.d.fish
  if not fish then return nil end
  if not (fish.feed or fish.mass) then refuse(job, "fish needs feed (a day) or mass") end
  return asked(job, tarn.bed.waste, { feed_g = fish.feed and fish.feed * 1000, fish_kg = fish.mass,
    protein = fish.protein, ration = fish.ration, temp = job.temp })
end

local function demands_of(job)
  local list, want, t = {}, job.d.demand or {}, job.d.treatment or {}
  local function add(name, flow, why) list[#list + 1] = { name = name, flow = flow, why = why } end
  if want.turnover then
    add("Turnover", want.turnover * job.volume / 3600, "as wished")
  end
  if (want.fall_width and not want.fall_depth) or (want.fall_depth and not want.fall_width) then
    refuse(job, "demand.fall_width and fall_depth go together")
  end
  if want.fall_width then
    add("Falls", tarn.flow.weir { kind = "broad", width = want.fall_width, lip_depth = want.fall_depth }.flow,
      "weir, level broad crest")
  end
  local waste = job.waste
  if not waste then return list end
  local least = tarn.bed.oxygen { flow = 1e-3, ammonia_g = waste.ammonia_g, bod_g = waste.bod_g, temp = job.temp,
    inlet = job.water.oxygen, elevation = job.water.elevation }.least_flow
  if least then add("Oxygen for the bed", least, "2 mg/L left at its outlet") end
  local spare = t.ammonia and t.ammonia - (t.background or 0)
  if spare and spare > 0 then
    add("Ammonia", waste.ammonia_g / spare / DAY, "a perfect bed")
  end
  return list
end

local function flow_of(job)
  local bed, pump = job.bed, job.d.pump or {}
  if bed.flow then return bed.flow, "bed.flow" end
  if pump.flow then
    if not (pump.flow > 0) then refuse(job, "pump.flow is 0: no water goes through the bed") end
  end
  local works = job.pond:works()
  if works.bed_flow and works.bed_flow > 0 then
    return works.bed_flow, works.from_curve and "the pump's curve" or "pump.flow"
  end
  if pump.flow then return pump.flow, "pump.flow" end
  local most, name = 0, nil
  for _, demand in ipairs(job.demands) do
    if demand.flow > most then most, name = demand.flow, demand.name end
  end
  if not name then
    refuse(job, "pump.flow is missing, and neither a curve with pipes nor a demand tells it: "
      .. "give pump.flow, bed.flow or demand.turnover")
  end
  return most, "the greatest demand: " .. name:lower()
end

-- Head of water over the bed's lip at a flow through the bed: as described, or
-- what the bed's fall asks for (a pond with nothing but that fall works it out).
local function lip_head(job)
  if job.bed.head then return function() return job.bed.head end, "described" end
  local lip
  for _, fall in ipairs(job.d.falls or {}) do lip = fall.bed and fall or lip end
  if not lip then return function() return nil end, nil end
  local known = {}
  return function(flow)
    known[flow] = known[flow] or asked(job, tarn.pond, { basin = job.d.basin, lip = job.d.lip, bed = { area = 1 },
      falls = { lip }, pump = { flow = flow } }):works().bed_head
    return known[flow]
  end, "solved"
end

-- ---- stone ------------------------------------------------------------------------

-- The layers as far as they are under water: what stands dry treats nothing.
local function wet_part(layers, cover)
  local out, dry = {}, cover
  for i = #layers, 1, -1 do
    local layer = {}
    for key, value in pairs(layers[i]) do layer[key] = value end
    local cut = math.min(dry, layer.thickness)
    dry, layer.thickness = dry - cut, layer.thickness - cut
    if layer.thickness > 1e-9 then table.insert(out, 1, layer) end
  end
  return out
end

local function depth_of(layers)
  local sum = 0
  for _, layer in ipairs(layers) do sum = sum + layer.thickness end
  return sum
end

-- ---- the question ---------------------------------------------------------------------

-- Everything that tarn.bed.size wants but the area.
local function question(job)
  local bed, t, waste = job.bed, job.d.treatment or {}, job.waste or {}
  local ask = {
    flow = job.flow, pond_area = job.surface, pond_volume = job.volume,
    loading = bed.loading, regime = bed.regime, surface_share = bed.surface_share, volume_share = bed.volume_share,
    ammonia_g = waste.ammonia_g, bod_g = waste.bod_g, solids_g = waste.solids_g,
    pond_target = t.ammonia, inlet = t.inlet, target = t.outlet, background = t.background,
    rate = t.rate, k_m_yr = t.k, theta = t.theta, tanks = t.tanks, k_low = t.k_low, k_high = t.k_high,
    temp = job.temp, oxygen = job.water.oxygen, elevation = job.water.elevation,
    direction = bed.direction, clogging = bed.clogging,
    outlet_head = job.head, freeboard = job.cover, head = bed.spare_head or bed.drop,
  }
  if job.wet then
    ask.layers = job.wet
  else
    ask.depth, ask.porosity = job.depth, bed.porosity
    ask.diameter, ask.sphericity = bed.diameter, bed.sphericity
  end
  if job.fit then ask.max_area, ask.length = job.fit.area, job.fit.width end
  return ask
end

local function copy(t, more)
  local out = {}
  for key, value in pairs(t) do out[key] = value end
  for key, value in pairs(more or {}) do out[key] = value end
  return out
end

local function fit_of(job)
  local yard = job.d.yard
  if not yard then return nil end
  return asked(job, tarn.bed.fit, copy(yard, { dig = yard.dig or job.full_depth or 0 }))
end

-- ---- trade-off ---------------------------------------------------------------------------

local function steps(middle, factors)
  local out = {}
  for i, factor in ipairs(factors) do out[i] = middle * factor end
  return out
end

local function spread(low, high, count)
  local out = {}
  for i = 1, count do out[i] = low + (high - low) * (i - 1) / (count - 1) end
  return out
end

-- Width along the lip of a bed of an area: so many times the way to the lip,
-- unless the description or the yard says otherwise.
local function width_of(job, area)
  local bed, fit = job.bed, job.fit
  local width = job.length and area / job.length or bed.width or bed.length and area / bed.length or (job.ratio * area) ^ 0.5
  if fit then width = math.max(area / fit.width, math.min(fit.length, width)) end
  return width
end

-- Cells of all areas x depths x flows, flow fastest; each flow has its own head
-- over the lip.
local function grid(job, areas, depths, flows)
  local cells = {}
  for a, area in ipairs(areas) do
    for f, flow in ipairs(flows) do
      local some = asked(job, tarn.bed.tradeoff, copy(job.ask, { areas = { area }, depths = depths, flows = { flow },
        width = width_of(job, area), outlet_head = job.head_at(flow) }))
      for d, cell in ipairs(some) do cells[((a - 1) * #depths + d - 1) * #flows + f] = cell end
    end
  end
  return cells
end

-- Without an area to judge, some bed that fits must be feasible.
local function check_feasible(job, most)
  local cells = grid(job, spread(most / 20, most, 20), steps(job.depth, { 0.5, 0.75, 1, 1.5 }),
    steps(job.flow, { 0.25, 0.5, 1, 1.5, 2, 4 }))
  local why, all = {}, {}
  for _, cell in ipairs(cells) do
    if not cell.refused then return end
    for name, text in pairs(cell.flags) do why[name] = text end
  end
  for _, name in ipairs(plan.REFUSALS) do
    if why[name] then all[#all + 1] = why[name] end
  end
  refuse(job, ("bed: no feasible size among %d up to %.3g m2%s, at other depths and flows: %s")
    :format(#cells, most, job.fit and ", all that the yard holds" or "", table.concat(all, "; ")))
end

plan.REFUSALS = { "does_not_fit", "target_missed", "flow_short", "anaerobic", "head_short", "water_on_gravel",
  "section_overload" }

-- Does the described bed lie in the room?  Its sides, not its area alone.
function plan.fits(job)
  local fit, bed = job.fit, job.bed
  if not (fit and bed.length and bed.width) then return nil end
  local long, short = math.max(bed.length, bed.width), math.min(bed.length, bed.width)
  return long <= fit.length * (1 + 1e-6) and short <= fit.width * (1 + 1e-6)
end

-- The question about the described bed.  The library knows the room as a
-- longest way and an area; whether two given sides fit is known here.
local function described(job)
  local fits, bed = plan.fits(job), job.bed
  return copy(job.ask, { area = job.facts.bed_area, width = bed.width,
    length = fits ~= nil and bed.length or nil, max_area = fits == false and 1e-3 or nil })
end

-- ---- the whole ---------------------------------------------------------------------------

-- The bed that all size rules ask for, or the largest that fits.
local function choose(job)
  local needed = asked(job, tarn.bed.size, job.ask).needed
  local most = job.fit and job.fit.area or 4 * needed
  local area = math.min(needed, most)
  local sized
  for _, ratio in ipairs { 2, 3, 4, 6 } do      -- a short way to the lip keeps the gravel dry
    job.ratio = ratio
    sized = asked(job, tarn.bed.size, copy(job.ask, { area = area, width = width_of(job, area) }))
    if not sized.flags.water_on_gravel then break end
  end
  if sized.refused then check_feasible(job, most) end
  return sized, area < needed and "fits" or "needed"
end

--[[
  plan.of(pond, description, source, path) -> job

  job.sized   tarn.bed.size of the bed to build, with .methods of all rules
  job.chosen  "described", "needed" or "fits" (smaller than needed)
]]
function plan.of(pond, description, source, path)
  local facts = pond:facts()
  local job = { path = path, source = source, pond = pond, d = description, facts = facts,
    bed = description.bed or {}, water = description.water or {},
    volume = facts.lip_volume, surface = facts.lip_area }
  job.temp = plan.field(job, "water", "temp")
  job.cover = plan.field(job, "bed", "cover")
  job.ratio = 2
  job.waste = load_of(job)
  job.demands = demands_of(job)
  job.flow, job.flow_from = flow_of(job)
  job.head_at, job.head_from = lip_head(job)
  job.head = job.head_at(job.flow)
  if job.bed.layers then
    job.wet, job.full_depth = wet_part(job.bed.layers, job.cover), depth_of(job.bed.layers)
    job.depth = job.full_depth - job.cover
  else
    job.depth = job.bed.depth
    job.full_depth = job.depth and job.depth + job.cover
  end
  if not job.depth then refuse(job, "bed.layers are missing: list them from the bottom (or give bed.depth)") end
  job.fit = fit_of(job)
  job.ask = question(job)
  if facts.bed_area > 0 then
    job.chosen = "described"
    job.sized = asked(job, tarn.bed.size, described(job))
  else
    job.sized, job.chosen = choose(job)
  end
  job.length = job.bed.length or job.sized.length
  job.width = job.bed.width or job.sized.width
  if job.bed.layers then
    job.stack = asked(job, tarn.bed.layers, { layers = job.bed.layers, area = job.sized.area, flow = job.flow,
      lip = job.depth, temp = job.temp, clogging = plan.field(job, "bed", "clogging") })
  end
  return job
end

-- Loadings at which the removal rate was measured, m/d: as described, or as the
-- named rate has them.
function plan.measured_at(job)
  local t = job.d.treatment or {}
  for _, rate in ipairs(tarn.bed.rates()) do
    if rate.name == t.rate then return t.k_low or rate.k_low, t.k_high or rate.k_high end
  end
  return t.k_low, t.k_high
end

-- What its loading is weighed against: the regime wished, or else the nearest
-- range of ponds' beds; low, high [m/d] and what it is.
function plan.nearest_loading(job)
  for _, regime in ipairs(tarn.bed.regimes()) do
    if regime.name == job.bed.regime then return regime.low, regime.high, regime.meaning end
  end
  local best, range = math.huge, nil
  for _, use in ipairs { "aquaculture", "swimming", "ornamental" } do
    local place = tarn.bed.place(job.sized.loading, use)
    local far = math.abs(math.log(place.factor))
    if far < best then best, range = far, place.nearest end
  end
  return range.low, range.high, range.kind
end

-- For the page: areas and depths at the flow taken, then other flows.
function plan.page_grid(job)
  local area, depth, flow = { job.sized.area }, { job.depth }, { job.flow }
  local cells = grid(job, steps(area[1], { 0.5, 1, 1.5, 2 }), steps(depth[1], { 0.5, 1 }), flow)
  local flows = grid(job, area, depth, steps(flow[1], { 0.5, 1.5 }))
  return table.move(flows, 1, #flows, #cells + 1, cells)
end

-- For the map: many areas and depths at the flow taken.
function plan.map(job)
  local most = math.max(2 * job.sized.area, 1.2 * (job.sized.needed or 0))
  local map = { areas = spread(most / 40, most, 40), depths = spread(0.3 * job.depth, 1.5 * job.depth, 25) }
  map.cells = grid(job, map.areas, map.depths, { job.flow })
  return map
end

-- For a spreadsheet: 20 areas x 5 depths x 10 flows about the bed.
function plan.full_grid(job)
  return grid(job, spread(0.2 * job.sized.area, 4 * job.sized.area, 20), steps(job.depth, { 0.5, 0.75, 1, 1.25, 1.5 }),
    spread(0.2 * job.flow, 2 * job.flow, 10))
end

-- The bed with another removal rate.
function plan.with_rate(job, rate)
  local ask = copy(job.ask, { area = job.sized.area })
  for _, name in ipairs { "rate", "k_m_yr", "theta", "tanks", "k_low", "k_high" } do ask[name] = rate[name] end
  return asked(job, tarn.bed.size, ask)
end

function plan.chance(job)
  return asked(job, tarn.bed.chance, copy(job.d.chance or {}, { bed = copy(job.ask, { area = job.sized.area,
    width = job.width }) }))
end

return plan

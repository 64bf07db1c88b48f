-- SPDX-License-Identifier: MIT
-- The Lua face of the bed wing: names, units, details, messages.  Numbers are
-- tested in C; a few published ones are asked again through this door.
local tarn = require "tarn"
local bed, u = tarn.bed, tarn.units

local function near(got, want, tolerance, what)
	if not (math.abs(got - want) <= tolerance) then
		error(("%s: got %.10g, want %.10g"):format(what or "value", got, want), 2)
	end
end

-- 'call' must raise a message that holds every one of the given texts
local function refuses(call, ...)
	local ok, message = pcall(call)
	if ok then error("nothing was raised", 2) end
	for _, text in ipairs { ... } do
		if not tostring(message):find(text, 1, true) then
			error(("'%s' is not in: %s"):format(text, message), 2)
		end
	end
end

-- ---- surface loading -------------------------------------------------------

near(u.gpm_per_ft2, 58.67, 0.01)
near(u.m_per_hour, 24, 0)
local q = bed.loading { flow = 3.9e-3, area = 23.6 }
near(q.loading, 14.28, 0.02, "Sindilariu et al. 2008")
near(bed.loading { flow = q.flow, loading = q.loading }.area, 23.6, 1e-12)
near(bed.loading { area = 23.6, loading = q.loading }.flow, 3.9e-3, 1e-15)
refuses(function() bed.loading { flow = 1 } end, "two of flow, area and loading")
refuses(function() bed.loading { flow = 1, aera = 1 } end, "did you mean 'area'")
refuses(function() bed.loading { flow = 0, area = 1 } end, "loading.flow")

assert(#bed.ranges() > #bed.ranges "ornamental")
for _, r in ipairs(bed.ranges "aquaculture") do
	assert(r.purpose == "aquaculture" and r.low <= r.high and #r.source > 5 and r.evidence)
end
refuses(function() bed.ranges "swiming" end, "did you mean 'swimming'?")
-- what had another name is refused with the new one
refuses(function() bed.regimes() end, "tarn.bed.regimes is now tarn.bed.kinds")
refuses(function() bed.waste_rules() end, "tarn.bed.waste_rules is now tarn.bed.waste_estimates")
refuses(function() tarn.study.sensitivity_design(8, 2) end,
  "tarn.study.sensitivity_design is now tarn.study.sensitivity_samples")
refuses(function() tarn.rule "day.lua" end, "tarn.rule is now tarn.control")
local place = bed.place(50, "ornamental")
near(place.factor, 50 / 80, 1e-12)
assert(place.inside == 0 and place.nearest.evidence == "common practice, no source")
assert(bed.kinds()[4].name == "bog" and #bed.rules() == 4)
near(bed.exposed(3), 0.9502, 1e-4)

-- ---- treatment -------------------------------------------------------------

local area, why = bed.area_for { flow = 500 / 86400, inlet = 150, target = 30,
	background = 5, k_m_yr = 36.5, tanks_in_series = math.huge }
near(area, 8789, 1, "5000 ln 5.8")
assert(why.area == area and why.flags.rate_unplaced and not why.refused)
local c, back = bed.outlet { flow = 500 / 86400, area = area, inlet = 150,
	background = 5, k_m_yr = 36.5 }
near(c, 30, 30e-12)
near(back.removal, 0.8, 1e-12)
near(bed.area_for { flow = 10 / 86400, inlet = 60, target = 15, background = 5,
	k_m_yr = 37, tanks_in_series = 3, theta = 1, temp = 20 }, 226.45, 0.01)
near(bed.outlet { flow = 0.05 / 86400, area = 1, inlet = 10, background = 1,
	k_m_yr = 30e-3 * 365, et = 5 }, 6.3963, 1e-4)
-- a rate by name, and what is said beside it
local _, d = bed.outlet { flow = 1e-3, area = 2, inlet = 2, rate = "hf-ammonia-2009" }
assert(d.flags.extrapolated)
near(d.extrapolation, 43.2 / 0.2, 1e-9)
_, d = bed.outlet { flow = 1e-3, area = 2, inlet = 2, rate = "hf-ammonia-2009", k_high = 100 }
assert(not d.flags.extrapolated)
refuses(function() bed.outlet { flow = 1e-3, area = 2, inlet = 2, rate = "hf-amonia-2009" } end,
	"did you mean 'hf-ammonia-2009'")
refuses(function()
	bed.area_for { flow = 1e-3, inlet = 60, target = 4, background = 5, k_m_yr = 37 }
end, "treatment.target", "impossible", "no bed of any size")
refuses(function() bed.outlet { flow = 1e-3, area = 2, inlet = -1, k_m_yr = 1 } end,
	"treatment.inlet", "must be 0")
refuses(function() bed.outlet { flow = 1e-3, area = 2, inlet = 1, k_m_yr = 1, temp = -1 } end,
	"treatment.temp [deg C] must be 0 to 40")
refuses(function() bed.outlet { flow = 1e-3, area = 2, inlet = 1, k_m_yr = 1, tempp = 1 } end,
	"did you mean 'temp'")
local line = bed.profile { flow = 10 / 86400, area = 200, inlet = 12, background = 1.5,
	k_m_yr = 15, rain = 5, et = 12, points = 5 }
assert(#line == 5 and line[1] == 12)
near(line[5], bed.outlet { flow = 10 / 86400, area = 200, inlet = 12, background = 1.5,
	k_m_yr = 15, rain = 5, et = 12 }, 1e-9)
for _, r in ipairs(bed.rates()) do assert(#r.source > 5 and r.evidence and r.parameter) end
assert(#bed.trials() > 10 and bed.trials()[1].k_m_yr > 0)
near(bed.implied_rate(0.612, 14.278) / 365, 13.52, 0.01)
near(bed.areal_rate(1, 0.6, 0.38), 0.228 * 365, 1e-9)
near(bed.dispersion_tanks_in_series(0.1), 5.556, 0.01)
near(bed.reed_bod_rate(0.42), 1.84, 0.005)
near(bed.reed_nitrification_rate(1), 0.4107, 1e-4)
near(bed.reed_solids_ratio(0.05), 0.1113, 1e-9)
near(bed.reed_phosphorus_ratio(0.05), 0.5793, 1e-4)

-- ---- the loop --------------------------------------------------------------

local loop = bed.loop { volume = 20, flow = 96 / 86400, area = 4, days = 400,
	ammonia = { load = 3.22, k_m_yr = 5 * 365, background = 0.02, start = 1 },
	phosphorus = { load = 0.5 } }
near(loop.steady.ammonia, 0.19835, 1e-4)
near(loop.days[400].ammonia, loop.steady.ammonia, 1e-9)
assert(loop.steady.phosphorus == nil and loop.flags.no_steady_state)
near(loop.days[400].phosphorus, 0.5 * 400 / 20, 1e-9)
near(loop.bed_g.ammonia, 3.22, 1e-9)
assert(loop.days[2].ammonia < loop.days[1].ammonia)
refuses(function() bed.loop { volume = 20, flow = 1e-3, area = 4, bod = { load = -1 } } end,
	"loop.bod.load")
refuses(function() bed.loop { volume = 20, flow = 1e-3, area = 4, amonia = {} } end,
	"did you mean 'ammonia'")

-- ---- waste, ammonia, oxygen ------------------------------------------------

local waste = bed.waste { feed_g = 60000, protein = 0.40 }
near(waste.ammonia_g, 2208, 1e-6)
assert(waste.solids_g > 0 and waste.oxygen_g > waste.nitrification_oxygen_g)
assert(waste.ammonia_low_g < 2208 and waste.ammonia_high_g > 2208)
near(bed.waste { fish_kg = 4000, ration = 0.015, temp = 25 }.feed_g, 60000, 1e-6)
near(bed.appetite(15.5), 0.5, 1e-12)
refuses(function() bed.waste {} end, "waste.feed_g", "fish_kg")
refuses(function() bed.waste { feed_g = 100, protein = 35 } end, "waste.protein")
near(bed.unionised(8.0, 24), 0.0502, 1e-4)
near(bed.total_ammonia(0.05 * bed.unionised(8, 24), 8, 24), 0.05, 1e-12)
near(bed.oxygen_saturation(20), 9.09, 0.006)
near(bed.oxygen_saturation(20, 0), 9.09, 0.006)
assert(bed.oxygen_saturation(20, 1500) < 8)
refuses(function() bed.oxygen_saturation(-1, 0) end, "temperature")
refuses(function() bed.unionised(80, 24) end, "pH")
local air = bed.oxygen { flow = 100 / 86400, inlet = 8, ammonia_g = 50, bod_g = 2000 }
assert(air.flags.anaerobic and air.refused and air.outlet < 0)
assert(#bed.waste_estimates() == 6 and #bed.nitrification() == 3)

-- ---- gravel ----------------------------------------------------------------

local h, detail = bed.headloss { velocity = 5 / 3600, depth = 0.6, diameter = 0.010,
	porosity = 0.38, temp = 20 }
near(h * 1000, 1.12896, 0.05)
assert(detail.regime == "inertial" and detail.flags.no_darcy)
near(bed.headloss { velocity = 5 / 3600, depth = 0.6, diameter = 0.010,
	porosity = 0.38, temp = 5 } * 1000, 1.58849, 0.05)
near(bed.headloss { velocity = 5 / 3600, depth = 0.6, diameter = 0.010,
	porosity = 0.38, clogging = 10 }, 10 * h, 1e-12)
refuses(function() bed.headloss { velocity = 1e-3, depth = 0.6, diameter = 0.01, porosity = 1 } end,
	"gravel.porosity")
refuses(function() bed.headloss { depth = 0.6, diameter = 0.01, porosity = 0.4 } end,
	"gravel.velocity is missing")
for law, want in pairs { ergun = 1338.8671875, carman = 1614.721678,
	tallmadge = 1365.273914, jones_krier = 1362.271945 } do
	near(bed.pressure { law = law, velocity = 1e-3, diameter = 0.8e-3, porosity = 0.4,
		density = 1000, viscosity = 1e-3 }, want, 1e-6, law)
end
near(bed.friction(3.55 / (1 - 0.55)), 20.77, 0.03)
local stone = bed.gravel { diameter = 0.016, porosity = 0.38, temp = 20, gradient = 0.01 }
near(stone.velocity * 3600, 26.63, 0.5)
near(bed.gravel { diameter = 0.01, porosity = 0.38 }.surface, 372, 1e-9)
near(bed.gravel { diameter = 0.01, porosity = 0.38, temp = 20 }.conductivity, 66989, 10)
near(bed.darcy { flow = 32 / 86400, conductivity = 172.8, gradient = 0.01 }.section, 18.52, 0.005)
near(bed.darcy { conductivity = 1000, depth = 0.5, drop = 0.1, loading = 24 }.length, 1.443, 1e-3)
near(bed.sieve { { share = 1, diameter = 0.01 }, { share = 1, diameter = 0.02 } }, 0.04 / 3, 1e-12)
refuses(function() bed.sieve { { share = 1 } } end, "sieve.diameter is missing: give it in m")
local v, settled = bed.settling { diameter = 5e-5, temp = 20, velocity = 1 / 3600 }
assert(v > 0 and settled.stokes > v and settled.held > 0)
refuses(function() bed.settling { diameter = 1e-3, density = 950 } end, "does not settle")
assert(#bed.media() == 5 and #bed.limits() == 6)

-- ---- layers ----------------------------------------------------------------

local function garden()
	return {
		{ name = "chamber", thickness = 0.25 },
		{ name = "cobble", thickness = 0.30, diameter = 0.10, porosity = 0.42 },
		{ name = "gravel", thickness = 0.30, diameter = 0.04, porosity = 0.40 },
		{ name = "pea gravel", thickness = 0.30, diameter = 0.0095, porosity = 0.38 },
	}
end
local stack = bed.layers { area = 1.1, flow = 1500 * u.gph, lip = 1.05, clogging = 10,
	layers = garden() }
near(stack.depth, 1.15, 1e-12)
assert(stack.layers[4].name == "pea gravel" and stack.layers[1].mass == 0)
near(stack.layers[4].bottom, 0.85, 1e-12)
near(stack.layers[4].wet, 0.20, 1e-12)
assert(stack.flags.clean_out and not stack.flags.no_chamber)
refuses(function() bed.layers { area = 1, layers = { { thickness = 1, diameter = 0.1 } } } end,
	"layer 1.porosity", "is missing")
refuses(function() bed.layers { area = 1, layers = {} } end, "layers must be a list of 1 to 100")
refuses(function() bed.layers { area = 1, layers = { { thicknes = 1 } } } end,
	"did you mean 'thickness'")

-- ---- the yard --------------------------------------------------------------

local fit = bed.fit { length = 6, width = 4, setback = 1 }
near(fit.area, 8, 1e-6)
near(bed.fit { length = 6, width = 4, setback = 0.5, dig = 1.6, footings = { 0.4 } }.width,
	4 - 1.2 - 0.5, 1e-6)
near(bed.fit { length = 6, width = 4, setbacks = { 0, 1, 0, 0 } }.area, 20, 1e-6)
near(bed.fit { corners = { { x = 0, y = 0 }, { x = 6, y = 0 }, { x = 0, y = 8 } } }.area, 12, 1e-5)
assert(#fit.corners == 4)
refuses(function() bed.fit { length = 6, width = 4, setback = 2 } end, "no room left")
refuses(function() bed.fit { length = 6 } end, "length and width, or corners")
refuses(function() bed.fit { corners = { { x = 0 }, { x = 1, y = 0 }, { x = 1, y = 1 } } } end,
	"yard.corners[1].y", "is missing")

-- ---- the whole sizing ------------------------------------------------------

local plain = bed.size { flow = 0.002, loading = 24 }
near(plain.area, 7.2, 1e-12)
assert(plain.governs == "loading" and #plain.methods == 1 and #plain.kinds == 4)
local koi = { flow = 2000 * u.gph, pond_volume = 8, pond_area = 12, feed_g = 100,
	loading = 1 * u.gpm_per_ft2, surface_share = 0.15, volume_share = 0.2,
	depth = 0.9, diameter = 0.02, porosity = 0.38, temp = 15, rate = "hf-ammonia-2009",
	cover = 0.05, available_head = 0.1 }
local r = bed.size(koi)
assert(r.governs == "loading" and r.needed == r.area)
assert(r.flags.extrapolated and r.extrapolation > 250 and r.sewage_factor > 250)
assert(r.surface_share ~= r.volume_share)
for _, m in ipairs(r.methods) do
	assert(m.area <= r.needed and m.evidence and m.governs == (m.name == r.governs))
end
koi.layers, koi.depth, koi.diameter, koi.porosity = garden(), nil, nil, nil
assert(not bed.size(koi).flags.no_chamber)
refuses(function() bed.size { loading = 24 } end, "size.flow", "turnover")
refuses(function() bed.size { flow = 0, loading = 24 } end, "size.flow")
refuses(function() bed.size { flow = 1e-3 } end, "nothing to size by")
refuses(function() bed.size { flow = 1e-3, kind = "bogg" } end, "must be one of", "bog")
refuses(function() bed.size { flow = 1e-3, loading = 24, porosity = 0 } end, "size.porosity")

local cells = bed.tradeoff { areas = { 1, 4 }, depths = { 0.5, 1 }, flows = { 5e-4, 2e-3, 4e-3 },
	feed_g = 100, k_m_yr = 206, pond_target = 2.5, diameter = 0.02, porosity = 0.38 }
assert(#cells == 12 and cells[1].flow == 5e-4 and cells[2].flow == 2e-3)
local feasible = 0
for _, cell in ipairs(cells) do feasible = feasible + (cell.refused and 0 or 1) end
assert(feasible > 0 and feasible < 12)
assert(cells[1].flags.target_missed)
refuses(function() bed.tradeoff { areas = { 1 }, depths = {}, flows = { 1e-3 } } end, "depths")
refuses(function() bed.tradeoff { areas = { 0 }, depths = { 1 }, flows = { 1e-3 } } end, "area")

local chance = bed.chance { samples = 500, seed = 3, bed = { flow = 2e-3, area = 4, feed_g = 100,
	k_m_yr = 206, inlet = 1, depth = 0.9, diameter = 0.02, porosity = 0.38 } }
assert(chance.pond.p5 < chance.pond.p50 and chance.pond.p50 < chance.pond.p95)
assert(chance.outlet.p95 < 1 and chance.residence.p5 > 0 and chance.refused == 0)
refuses(function() bed.chance { samples = 500 } end, "chance.bed")
refuses(function() bed.chance { samples = 500, bed = { flow = 1e-3, loading = 5 } } end,
	"size.area is missing")

-- what a function of a table takes and gives, from its rows
local rows = tarn.signature(bed.outlet)
assert(rows.first == "outlet" and rows.takes[1].name == "flow" and rows.takes[1].unit == "m3/s")
local gives = {}
for _, row in ipairs(rows.gives) do gives[row.name] = row.kind end
assert(gives.outlet == "number" and gives.flags == "flags" and gives.refused == "switch")

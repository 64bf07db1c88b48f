-- SPDX-License-Identifier: MIT
-- The Lua face of the wing 'flow': names, units, solving for each unknown,
-- messages.  Published values stand in tests/test_flow_*.c; a few are asked
-- for again here, through this face.

local tarn = require "tarn"
local flow, u = tarn.flow, tarn.units

local function near(got, want, tolerance, what)
  assert(math.abs(got - want) <= tolerance,
         ("%s: got %.12g, want %.12g +- %g"):format(what or "value", got,
                                                     want, tolerance))
end

local function close(got, want, what)
  near(got, want, 1e-10 * math.abs(want), what)
end

local function refused(text, f, ...)
  local ok, message = pcall(f, ...)
  assert(not ok, "not refused: " .. text)
  assert(tostring(message):find(text, 1, true),
         ("'%s' is not in '%s'"):format(text, message))
end

-- water --------------------------------------------------------------------
local w = flow.water(20)
near(w.density, 998.2, 0.2)                      -- MWH table C-1
near(w.kinematic * 1e6, 1.003, 0.012)            -- MWH table C-1
close(w.kinematic, w.viscosity / w.density)
near(w.vapour_pressure, 2.339, 0.001)
refused("temperature [deg C] must be 0 to 100, got -1", flow.water, -1)
refused("must be a number", flow.water, "warm")
near(flow.npsh { temp = 15, lift = 2, loss = 1 }, 7.17, 0.02)
refused("npsh.temp [deg C] must be 0 to 100, got 120", flow.npsh, { temp = 120 })
refused("unknown field 'tmp': did you mean 'temp'?", flow.npsh, { tmp = 15 })
refused("SDR must be 3 to 100, got 2", flow.sdr_inside, 0.1, 2)
refused("SDR must be a number, got nil", flow.sdr_inside, 0.1)
refused("the small diameter must not be above the large one", flow.expansion_k, 0.2, 0.1)

-- what a function takes, from the rows that check it
local takes = tarn.signature(flow.npsh)
assert(takes.named and takes.unit == "m" and #takes.arguments == 4)
assert(takes.arguments[2].name == "temp" and takes.arguments[2].unit == "deg C" and takes.arguments[2].default == 15)
assert(takes.arguments[2].lo == 0 and takes.arguments[2].hi == 100 and not takes.arguments[2].required)
takes = tarn.signature(flow.expansion_k)
assert(not takes.named and takes.arguments[1].required and takes.arguments[1].default == nil)
assert(tarn.signature(flow.friction_factor) == nil and tarn.signature(print) == nil and tarn.signature(3) == nil)

-- pipe ---------------------------------------------------------------------
local p = flow.pipe {                            -- Maurer ex. 4.3
  flow = 0.416, diameter = 0.5, length = 100, roughness = 4.6e-5,
  kinematic = 1.023053e-6,
}
near(p.reynolds, 1035465, 60)
near(p.friction_factor, 0.0133, 5e-5)
near(p.headloss, 0.61, 0.006)
near(p.velocity, 2.1187, 1e-3)
assert(p.regime == "turbulent")
local q = flow.pipe {
  headloss = p.headloss, diameter = 0.5, length = 100, roughness = 4.6e-5,
  kinematic = 1.023053e-6,
}
close(q.flow, 0.416, "flow")
q = flow.pipe {
  headloss = p.headloss, flow = q.flow, length = 100, roughness = 4.6e-5,
  kinematic = 1.023053e-6,
}
close(q.diameter, 0.5, "diameter")

local hw = flow.pipe {                           -- Illinois 77-906 exhibit I
  flow = 50 * u.gpm, diameter = flow.inside_diameter("40", "2"),
  length = 100 * u.ft, hazen_williams = 150, minor_k = 0, temp = 20,
}
near(hw.headloss / u.ft, 3.98, 0.2189)

refused("did you mean 'roughness'", flow.pipe,
        { flow = 1, diameter = 1, length = 1, roughnes = 0 })
refused("pipe.flow [m3/s] must be", flow.pipe,
        { flow = -1, diameter = 1, length = 1, roughness = 0 })
refused("two of flow, headloss and diameter", flow.pipe,
        { flow = 1, length = 1, roughness = 0 })
refused("length is missing", flow.pipe,
        { flow = 1, diameter = 1, roughness = 0 })
refused("must be a table of fields", flow.pipe, 3)

near(flow.friction_factor(1e5, 1e-3, "colebrook"), .022174536, 1e-8)
near(flow.friction_factor(1e5, 1e-3, "swamee_jain"), .022342399, 4.5e-6)
near(flow.friction_factor(1e5, 1e-3, "churchill"), .022343236, 1e-8)
near(flow.friction_factor(1000, 0), 0.064, 1e-15)
refused("formula must be", flow.friction_factor, 1e5, 0, "moody")
refused("formula must be a string", flow.friction_factor, 1e5, 0, {})
refused("relative roughness", flow.friction_factor, 1e5, 0.06)

local runs = {
  { diameter = 0.05, length = 10, roughness = 1.5e-6 },
  { diameter = 0.04, length = 5, roughness = 1.5e-6, minor_k = 2 },
}
local s = flow.series { flow = 2e-3, pipes = runs, temp = 10 }
close(s.headloss, s.pipes[1].headloss + s.pipes[2].headloss)
close(flow.series { headloss = s.headloss, pipes = runs, temp = 10 }.flow,
      2e-3)
s = flow.parallel { flow = 2e-3, pipes = runs }
close(s.pipes[1].flow + s.pipes[2].flow, 2e-3)
refused("needs one or more", flow.series, { flow = 1 })
refused("pipes must be a list", flow.series, { flow = 1, pipes = 2 })
refused("pipes[1].lenght", flow.series,
        { flow = 1, pipes = { { lenght = 2 } } })
near(flow.expansion_k(0.05, 0.1), 0.5625, 1e-15)
near(flow.contraction_k(0.05, 0.1), 0.375, 1e-15)
refused("small diameter", flow.contraction_k, 0.2, 0.1)

-- tables -------------------------------------------------------------------
assert(flow.fittings["swing check"].value == 2.0)
assert(flow.fittings["swing check"].lo == 0.29)
assert(#flow.fittings["exit"].source > 0)
assert(flow.manning["gravel channel"].value == 0.029)
assert(flow.neutralisers["ascorbic acid"].value == 2.5)
assert(flow.roughness.plastic and flow.hazen_williams.plastic and
       flow.runoff.roof and flow.lips.sharp)
assert(#flow.pipe_sizes >= 26 and flow.pipe_sizes[1].schedule == "40")
near(flow.inside_diameter("80", "3") / u.inch, 2.9, 1e-12)
near(flow.sdr_inside(0.11, 11), 0.09, 1e-15)
refused("no pipe of schedule '40' and nominal size '2.1'",
        flow.inside_diameter, "40", "2.1")

-- pump ---------------------------------------------------------------------
local curve = { { 0, 60 }, { 75, 0 } }           -- H = 60 - 0.8 Q
local d = flow.pump { curve = curve, lift = 20, resistance = 0.5 }
near(d.flow, 8.18, 0.005)
near(d.head, 53.46, 0.01)
close(d.share_of_label, d.flow / 75)
assert(d.system.resistance > 33)
d = flow.pump { max_head = 5, label_flow = 2e-3, flow = 1e-3 }
near(d.head, 3.75, 1e-12)
assert(d.label_flow == 2e-3 and d.water_power > 36 and not d.power)
d = flow.pump { max_head = 5, label_flow = 2e-3, head = 3.75,
                efficiency = 0.4, price = 0.2, hours_per_day = 12 }
near(d.flow, 1e-3, 1e-15)
close(d.power, d.water_power / 0.4)
close(d.kwh_day, d.power * 12 / 1000)
close(d.cost_day, d.kwh_day * 0.2)
d = flow.pump { max_head = 5, label_flow = 2e-3, lift = 1, diameter = 0.04,
                length = 8, roughness = 1.5e-6, minor_k = 5, count = 2,
                speed = 0.9, watts = 120 }
assert(d.flow > 1e-3 and d.system.velocity > 0.8 and d.power == 120)
assert(d.efficiency < 1 and d.system.regime == "turbulent")
refused("pump.flow is beyond the curve", flow.pump,
        { max_head = 5, label_flow = 2e-3, flow = 3e-3 })
refused("cannot lift", flow.pump,
        { max_head = 5, label_flow = 2e-3, lift = 6, resistance = 1 })
refused("point 2: head must fall", flow.pump,
        { curve = { { 0, 5 }, { 1, 6 } }, flow = 0 })
refused("pump.curve[2] must be a pair", flow.pump,
        { curve = { { 0, 5 }, { 1 } }, flow = 0 })
refused("did you mean 'curve'", flow.pump, { curv = {} })
refused("needs a curve", flow.pump, { flow = 1 })
refused("give one of them", flow.pump,
        { max_head = 5, label_flow = 2e-3, flow = 1e-3, head = 1 })
local fit = flow.pump_fit { { 0, 81 * u.ft }, { 5000 * u.gpm, 60 * u.ft },
                            { 7850 * u.gpm, 20 * u.ft } }
near(fit.max_head / u.ft, 82.5, 0.06)            -- Maurer 7.2
near(fit.drop * u.cfs * u.cfs / u.ft, 0.201, 0.0006)
refused("pump.curve must be a list", flow.pump_fit, 1)
local a = flow.affinity { flow = 400 * u.gpm, head = 126 * u.ft,
                          power = 17.5 * u.hp, speed = 1700 / 3500 }
near(a.flow / u.gpm, 194.2857, 0.01)             -- Crane 7.33
near(a.power / u.hp, 2.0053, 0.001)
near(flow.running_cost { watts = 265 }.kwh_day, 6.36, 1e-12)
refused("needs one of", flow.running_cost, { amps = 3 })

-- network ------------------------------------------------------------------
local plant = {
  pump = { curve = { { 0, 8.2 }, { .0010, 7.9 }, { .0024, 6.7 },
                     { .0040, 4.6 }, { .0052, 2.2 }, { .0060, 0 } } },
  trunk = { { diameter = .0525, length = 4, roughness = 1.5e-6,
              minor_k = 2 } },
  branches = {
    { name = "bed", lift = 0.5, diameter = .0409, length = 6,
      roughness = 1.5e-6, minor_k = 3, valve_k = 4 },
    { name = "falls", lift = 1.8,
      pipes = { { diameter = .0525, length = 9, roughness = 1.5e-6,
                  minor_k = 2.5 } } },
    { name = "jets", diameter = .0266, length = 5, roughness = 1.5e-6,
      minor_k = 1.5, orifice_diameter = .008, orifices = 4 },
  },
}
local net = flow.network(plant)
near(net.branches[1].flow, 0.002296889048057, 1e-14)   -- scipy
near(net.branches[2].flow, 0.001908586218298, 1e-14)
near(net.branches[3].flow, 0.000675141465011, 1e-14)
assert(net.branches[2].name == "falls" and net.branches[2].lift == 1.8)
assert(not net.branches[1].dry and net.dry_branches == 0)
assert(net.continuity <= 1e-10 and net.energy <= 1e-10)
near(net.head, net.manifold_head + net.trunk_loss, 1e-12)
assert(net.trunk_velocity > 2)
close(net.pump_flows[1], net.flow)
plant.temp = 4
assert(flow.network(plant).flow < net.flow)      -- cold water is thicker
plant.temp = nil
plant.branches[1].target = 1.5e-3
plant.branches[2].target = 1.2e-3
plant.branches[3].target = 0.5e-3
local b = flow.balance(plant)
near(b.flow, 3.2e-3, 1e-15)
assert(b.surplus > 0 and b.branches[b.governs].extra_valve_k == 0)
plant.branches[2].lift = 9
refused("cannot lift", flow.network, {
  pump = plant.pump, branches = { plant.branches[2] } })
refused("network.branches[1].diamter", flow.network, {
  pump = plant.pump, branches = { { diamter = 1 } } })
refused("beside a single pipe", flow.network, {
  pump = plant.pump, branches = { { diameter = 1, length = 1,
                                    roughness = 0, pipes = { {
      diameter = 1, length = 1, roughness = 0 } } } } })
refused("needs a pump", flow.network, { branches = {
  { resistance = 1 } } })
refused("network.branches must be a list", flow.network,
        { pump = plant.pump, branches = 7 })
refused("branches[1].name must be a text, got", flow.network, {
  pump = plant.pump, branches = { { name = 5, resistance = 1 } } })

-- weir ---------------------------------------------------------------------
local r = flow.weir { kind = "rectangular", width = 2 * u.ft,
                      head = 0.45 * u.ft, contractions = 2 }
near(r.flow / u.cfs, 1.92, 0.005)                -- USBR worksheet
close(flow.weir { kind = "rectangular", width = 2 * u.ft, flow = r.flow,
                  contractions = 2 }.head, 0.45 * u.ft)
close(flow.weir { kind = "rectangular", head = 0.45 * u.ft, flow = r.flow,
                  contractions = 2 }.width, 2 * u.ft)
local ok, message = pcall(flow.weir, { kind = "rectangular", formula = "cengel", width = 1, head = 0.1, crest = 0.5 })
assert(not ok and tostring(message):find('weir.formula "cengel" is called "linear_cd" now', 1, true), message)
r = flow.weir { kind = "v_notch", angle_deg = 60, head = 0.3 * u.ft }
near(r.flow / u.cfs, 0.0711, 6e-5)               -- ASTM D5242
assert(not r.lip_depth and not r.look)
r = flow.weir { kind = "broad", width = 10, head = 0.65 }
near(r.flow, 8.9, 0.05)
near(r.critical_depth, 0.43, 0.005)
r = flow.weir { kind = "lip", coefficient = 1.6, width = 0.6, flow = 3e-3,
                drop = 0.8 }
assert(r.lip_depth < r.head and r.look == "sheet")
assert(r.throw > r.throw_back and r.impact > 3.9)
near(flow.weir { kind = "lip", coefficient = 1.6, width = 0.6,
                 lip_depth = r.lip_depth }.flow, 3e-3, 1e-15)
assert(flow.weir { kind = "rectangular", width = 1, head = 0.01 }.note)
assert(not flow.weir { kind = "rectangular", width = 1, head = 0.1 }.note)
near(flow.weir_submergence(0.5, 1.5), 0.84538605, 1e-8)
refused('weir.kind must be one of "rectangular", "v_notch", "broad", "lip"',
        flow.weir, { kind = "round" })
refused("lip needs it", flow.weir, { kind = "lip", width = 1, head = 0.1 })

-- orifice, channel, transit ------------------------------------------------
near(flow.orifice { area = 0.0014 * u.ft2, head = 3 * u.ft }.flow / u.cfs,
     0.0117, 1e-4)
local c = flow.channel { flow = 225 * u.cfs, slope = 0.0006, manning = 0.016,
                         width = 10 * u.ft, side_slope = 2 }
near(c.depth / u.ft, 3.406, 0.002)               -- Maurer 5.1
near(c.critical_depth / u.ft, 2.154, 0.002)      -- Maurer 5.2
assert(c.state == "subcritical" and c.froude < 1)
near(c.velocity * c.area, 225 * u.cfs, 1e-10)
c = flow.channel { depth = 0.25, slope = 0.01, manning = 0.04, points = {
  { 0, 1 }, { 1, 0 }, { 2, 0.5 }, { 3, 0 }, { 4, 1 } } }
near(c.area, 0.1875, 1e-12)
c = flow.channel { flow = 225 * u.cfs, width = 10 * u.ft, side_slope = 2 }
near(c.critical_depth / u.ft, 2.154, 0.002)
assert(not c.depth and not c.state)
refused("drain away", flow.channel,
        { flow = 1, width = 1, manning = 0.03, slope = -0.01 })
refused("channel.points[1] must be a pair of numbers", flow.channel,
        { flow = 1, manning = 0.03, slope = 0.01,
          points = { { "a", 1 }, { 1, 0 }, { 2, 1 } } })
local t = flow.transit { surfaces = 0.2, streams = 0.1, pipes = 0.03,
                         pond_area = 10 }
near(t.rise, 0.033, 1e-15)
near(flow.transit { surfaces = 0.2, pipes = 0.03, check_valve = true }.total,
     0.2, 1e-15)

-- overflow, storm ----------------------------------------------------------
near(flow.rational(0.11, 1.25 * u.inch_per_hour, 30 * u.acre) / u.cfs, 4.159,
     0.001)
local yards = { { area = 50 }, { area = 200, coefficient = 0.3 } }
close(flow.peak { intensity = 60, catchments = yards }, 110 * 60 / 3.6e6)
refused("peak needs", flow.peak, { intensity = 60 })
near(flow.stack(4 * u.inch, 7 / 24) / u.gpm, 144, 0.72)
local o = flow.overflow { intensity = 60, catchments = yards,
                          lip_width = 0.6, clogging = 0.5 }
close(o.flow, o.peak)
close(o.peak, 110 * 60 / 3.6e6)
near(0.5 * 1.705 * 0.6 * o.level ^ 1.5, o.peak, 1e-14)
o = flow.overflow { standpipe_diameter = 0.1, level = 0.01 }
assert(o.governs == "weir" and o.transition_head > 0.01)
refused("has no opening", flow.overflow, { level = 1 })
local route = flow.route {
  storage = { { 0, 20 }, { 0.5, 30 }, { 1, 38 } }, step = 300,
  start_level = 0.25,
  inflow = { 0, .001, .004, .009, .007, .004, .002, .001, .0005, 0, 0 },
  overflow = { lip_level = 0.3, lip_width = 0.5, standpipe_level = 0.25,
               standpipe_diameter = 0.0525 },
}
near(route.peak_level, 0.337258, 1e-5)           -- scipy
near(route.inflow - route.outflow - route.stored, 0, 1e-12)
assert(#route.levels == 11 and #route.outflows == 11)
assert(route.peak_outflow < route.peak_inflow)
refused("routing.inflow[2] [m3/s] must be a number", flow.route, {
  storage = { { 0, 1 }, { 1, 1 } }, step = 1, start_level = 0,
  inflow = { 0, "x" } })
refused("unknown field 'routing.overflow.lip_with'", flow.route, {
  storage = { { 0, 1 }, { 1, 1 } }, step = 1, start_level = 0,
  inflow = { 0, 0 }, overflow = { lip_with = 1 } })

-- intake, jets, top-up, winter ---------------------------------------------
near(flow.submergence(1000 * u.gpm, 16 * u.inch) / u.inch, 25, 0.1)
local i = flow.intake { flow = 5e-3, depth_low = 0.1, velocity_limit = 0.1 }
near(i.width, 0.5, 1e-12)
assert(i.over_limit == false)
refused("below the intake's sill", flow.intake,
        { flow = 1, width = 1, depth_low = -0.05 })
local j = flow.jet { diameter = 0.02, flow = 1e-3, path = 20 }
close(j.throw, 6.2 * 0.02 * j.velocity / 0.1)
assert(j.jets == math.ceil(20 / j.throw) and not j.carried)
local top = flow.topup { volume = 0.3, pond = 10, cv = 1, pressure = 300,
                         chlorine = 2, neutraliser =
                         flow.neutralisers["sodium thiosulfate crystals"]
                         .value }
near(top.share, 0.03, 1e-15)
near(top.neutraliser, 4.2, 1e-12)
assert(top.fill_time > 0 and not top.nitrogen and not top.air_gap)
near(flow.air_gap(0.75 * u.inch) / u.inch, 1.5, 1e-12)
near(flow.freezing_degree_days { 2, -3, -5, 1, -4, 9, -1 }, 11, 1e-12)
assert(flow.freeze_risk_days({ 0, -9, -8, -12 }, -8) == 3)
refused("days must be a list", flow.freezing_degree_days, 3)
local ice = flow.ice { degree_days = 100, factor = 0.02, area = 10 }
near(ice.thickness, 0.2, 1e-15)
near(ice.water, 1.834, 1e-12)
refused("unknown field 'days'", flow.ice, { days = 1 })

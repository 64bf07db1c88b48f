-- SPDX-License-Identifier: MIT
-- The rest of the top-up report: the pond, its pump, absence, what was assumed.
local defined = require "common.defined"
local losses = require "common.losses"
local money = require "common.money"
local site = require "common.site"
local text = require "common.text"

local beside = {}

function beside.pond(page, job, view)
  local f, basin, d = job.facts, job.pond:basin(), job.pond:description()
  local at = f.target or f.trigger or f.overflow_level
  local list, shape = {}, d.basin
  local function add(...) list[#list + 1] = string.format(...) end
  if type(shape) == "table" and shape.length then
    add("Basin: %s, %s long, %s wide, %s deep at the edge.", shape.shape or "rectangle",
      view:show("length", shape.length), view:show("length", shape.width), view:show("length", shape.depth))
  end
  add("Levels above the floor: overflow %s, target %s, trigger %s, intake %s.", view:level(f.overflow_level),
    view:level(f.target or f.trigger), view:level(f.trigger), view:level(f.intake))
  add("Basin at the lip: %s, surface %s, mean depth %s; stone in it leaves less for water.", view:show("volume", f.full_volume),
    view:show("area", f.full_area), view:show("length", f.full_volume / f.full_area))
  add("One %s at the %s: %s.", view.name == "us" and "inch" or "centimetre", f.target and "target" or "overflow level",
    view:show("volume", basin:area(at) * (view.name == "us" and tarn.units.inch or tarn.units.cm)))
  add("Bed %s, stream and falls %s; held above the pond while the pump runs: %s.", view:show("area", f.bed_area),
    view:show("area", f.wetted - f.full_area - f.bed_area), view:show("volume", f.transit))
  list[#list + 1] = losses.said(job.totals)
  local each, currency = money.price(d)
  if each then
    add("Water and sewer together: %s %s.", text.number(each * (view.name == "us" and tarn.units.kgal or 1), 2),
      currency .. (view.name == "us" and " per 1,000 US gal" or " per m3"))
  end
  page:heading("The pond")
  page:list(list)
end

function beside.pump(page, job, view)
  local f = job.facts
  local at = f.target or f.trigger or f.overflow_level
  local swing = job.pond:swing(at)
  page:heading("When the pump stops and starts")
  page:paragraph(("Running and at %s, a stop lets %s come back: the level rises %s%s. A start pulls it down as far.")
    :format(f.target and "the target level" or "the level where top-up ends", view:show("volume", f.transit),
            view:show("depth", swing.stopped - at),
            swing.spill > 0 and (", and %s runs over the lip"):format(view:show("volume", swing.spill))
              or (", and %s are left to the lip"):format(view:show("depth", f.overflow_level - swing.stopped))))
  local w, solved = job.pond:works(), {}
  for _, part in ipairs { { "bed_from", "over the bed's lip" }, { "stream_from", "in the stream" }, { "drain_from", "in the pipes" } } do
    if w[part[1]] == "solved" then solved[#solved + 1] = part[2] end
  end
  if #solved > 0 then
    page:paragraph(("Worked out from flow, lips and pipes: the water %s."):format(table.concat(solved, ", ")))
  end
  if job.facts.transit == 0 then
    page:paragraph("Nothing is described as held above the pond (bed.lip_head, stream.depth, pump.drainback; or a pump with pipes and falls): measure the rise once.")
  end
end

-- Days to the intake by month of leaving.
function beside.endurance(page, job, view)
  local f, absence, rows = job.facts, job.absence, {}
  if not absence or #absence.months == 0 then return end
  local function cell(days)
    if not days then return "-" end
    return days > absence.horizon and "over " .. absence.horizon or text.number(days)
  end
  for i, m in ipairs(absence.months) do
    rows[i] = { text.months[m.month], cell(m.worst), cell(m.p10), cell(m.p50), tostring(m.starts) }
  end
  page:heading("Away from home: days until the intake is exposed, without top-up")
  page:table({ "Leaving in", "Worst", "P10", "P50", "Starts" }, rows)
  page:paragraph(("From the %s down to the intake: %s. In one start of ten it takes fewer days than P10, in half fewer than P50. Wind, a leak and splash that is not described shorten it.")
    :format(job.from and "level of today" or f.target and "target" or f.trigger and "trigger" or "overflow level",
            view:show("depth", (job.from or f.target or f.trigger or f.overflow_level) - f.intake)))
end

-- Electricity of the pump, from its watts.
function beside.power(page, job, view)
  local costs = job.pond:description().costs
  if costs and costs.power then
    page:paragraph("The pump's electricity is not in these costs.")
  end
end

function beside.assumptions(page, job, view)
  local list, d, f = {}, job.pond:description(), job.facts
  local function add(...) list[#list + 1] = string.format(...) end
  add("Evaporation: %s.", job.report.title)
  for _, origin in ipairs(job.report.origins) do
    add("%s: %d of %d days.", origin.title, origin.days, job.report.days)
  end
  for _, note in ipairs(job.weather:notes()) do list[#list + 1] = note end
  for _, line in ipairs(site.lines(job.pond, job.report)) do list[#list + 1] = line end
  if d.catchments then
    add("Catchments: in the design storm only; no rain of this report comes from them. A roof or slope that drains in on every day is an apron (apron.area).")
  end
  if not d.splash then add("Splash: none described. It is a figure that only a measurement gives (falls on, then off).")
  else add("Splash: %s a day while the pump runs, as described.", view:show("volume", f.splash * 86400)) end
  if not d.seepage then add("Seepage: none described; a sound liner loses nothing that a ruler shows.") end
  if f.bed_area > 0 and not (d.bed and d.bed.plant_factor) then
    add("Plants of the bed: 1.2 x grass reference all year (FAO-56 Table 12); a few square metres in dry surroundings take more, dead stands less.")
  end
  if (f.wetted - f.full_area - f.bed_area) > 1e-9 then
    add("Stream and falls evaporate %.2g times as much as still water%s.", f.stream_factor,
      (d.stream and d.stream.factor) and "" or " (default; 1.4 to 1.7 was measured on disturbed pools)")
  end
  add("%s", defined.hours(d))
  if not f.trigger then add("No top-up is described (no trigger level).")
  elseif not d.supply then add("The supply gives as much as is wanted, on any day.") end
  add("On the first morning the level stands at %s.", view:level(job.totals.start_level))
  add("The ledger closes to %.0e of the water turned over.", job.totals.residual)
  page:heading("Method and assumptions")
  page:list(list)
end

function beside.warnings(page, job, view)
  local t, f, list = job.totals, job.facts, {}
  local function add(...) list[#list + 1] = string.format(...) end
  if t.refused > 0 then add("On %d days top-up was wanted and not allowed.", t.refused) end
  if t.unmet > 1e-9 then add("At the most %s of top-up were wanted and not given on a day.", view:show("volume", t.unmet)) end
  if t.lowest_date and (t.refused > 0 or t.unmet > 1e-9 or not f.trigger) then
    add("The lowest level was %s under the lip, on %s.", view:show("depth", f.overflow_level - t.lowest_level), t.lowest_date)
  end
  if t.starved > 0 then add("On %d days the pond held too little water to start its pump.", t.starved) end
  if t.under_intake > 0 then add("On %d days the level ended under the intake.", t.under_intake) end
  if t.dry > 0 then add("On %d days a loss found no water: %s in all.", t.dry, view:show("volume", t.shortfall)) end
  if #list == 0 then return end
  page:heading("Take note")
  page:list(list)
end

function beside.cautions(page)
  page:heading("Cautions")
  page:list({
    "An estimate from weather and sizes; a meter and a ruler on the pond itself are better. From weather alone nobody can say that a pond leaks.",
    "Fill through an air gap or an approved backflow preventer: pond water must never reach drinking water. Local plumbing codes rule.",
    "Tap water holds chlorine or chloramine: fish stand small, slow additions best; ask your supplier what it uses.",
    "Deep water is a danger to children, and pumps to all if their wiring is not protected: follow local codes and leave electrical work to licensed people.",
  })
end

return beside

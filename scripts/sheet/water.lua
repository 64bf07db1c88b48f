-- SPDX-License-Identifier: MIT
-- Sheet: volumes, levels, what runs, overflow and storm.
local defined = require "common.defined"
local water = {}
local report = require "bed.report"
local u = tarn.units

local NAMES = {
  edge = "Edge of the basin", storm = "Highest in the design storm", overflow = "Overflow (full, pump off)",
  stop = "After a stop", full_on = "Full, pump on", target = "Normal, high (top-up ends)",
  trigger = "Normal, low (top-up starts)", start = "After a start, from normal low", intake = "Intake minimum",
  sill = "Sill of the intake", pump = "Pump minimum", floor = "Floor",
}
water.NAMES = NAMES

-- Levels that an owner reads on a ruler, for a page.
local FEW = { edge = true, overflow = true, target = true, trigger = true, intake = true }

function water.few_levels(page, job, view)
  local rows, edge = {}, job.pond:basin():top()
  for _, l in ipairs(job.chart) do
    if FEW[l.name] then
      rows[#rows + 1] = { NAMES[l.name], view:cell("depth", edge - l.level), view:cell("depth", l.level), view:cell("volume", l.volume) }
    end
  end
  page:heading("Levels")
  page:table({ "\nLevel", "Below the\nedge, " .. view:unit("depth"), "Above the\nfloor, " .. view:unit("depth"),
    "Basin below\nit, " .. view:unit("volume") }, rows)
end

function water.levels(page, job, view)
  local chart, rows, edge = job.chart, {}, job.pond:basin():top()
  for i, l in ipairs(chart) do
    rows[i] = { NAMES[l.name], view:cell("depth", edge - l.level), view:cell("depth", l.level), view:cell("area", l.area),
      view:cell("volume", l.volume), view:cell("volume", l.between) }
  end
  page:heading("Levels")
  local d, v = "\n" .. view:unit("depth"), "\n" .. view:unit("volume")
  page:table({ "\nLevel", "Below\nedge" .. d, "Above\nfloor" .. d, "\nSurface\n" .. view:unit("area"), "Basin\nbelow it" .. v,
    "Down to\nthe next" .. v }, rows)
  if math.abs(job.water - job.facts.full_volume) > 1e-6 then
    page:paragraph("Volumes are the basin's: the stone described takes %s of that.",
      view:show("volume", job.facts.full_volume - job.water))
  end
  page:list(water.moves(job, view))
end

-- The same in one sentence.
function water.move(job, view)
  local c = job.chart
  return ("A stop of the pump lifts the level %s%s, a start lowers it %s from full%s."):format(view:show("depth", c.rise),
    c.spills and (" and SPILLS %s"):format(view:show("volume", c.spill)) or "", view:show("depth", c.drop),
    c.start_bares_intake and " and BARES THE INTAKE" or "")
end

-- What stops and starts do, as sentences.
function water.moves(job, view)
  local c, out = job.chart, {}
  out[1] = ("Stop: %s come back and the level rises %s%s."):format(view:show("volume", c.transit), view:show("depth", c.rise),
    c.spills and (", to the overflow: %s SPILL at every stop. Lower the target by %s or more"):format(
      view:show("volume", c.spill), view:show("depth", math.max(0, job.works.running_level - job.at.full_on)))
    or (", with room for %s more below the overflow"):format(view:show("volume", c.room)))
  out[2] = ("Start: the level falls %s from full%s%s."):format(view:show("depth", c.drop),
    job.facts.trigger and (", %s from normal low"):format(view:show("depth", c.drop_trigger)) or "", c.start_bares_intake and ", and BARES THE INTAKE: top up before starting" or "")
  return out
end

local FROM = { given = "as described", solved = "worked out", unknown = "not described, taken as none" }

function water.running(page, job, view)
  local w, d, lines = job.works, job.description, {}
  local function add(...) lines[#lines + 1] = string.format(...) end
  page:heading("What runs")
  if not w.flow then
    page:paragraph("No flow is described: give pump.flow, or pump.curve (or max_head and label_flow) and pipes.")
    return
  end
  if w.from_curve then
    add("Pump: %s (%s) against %s of head%s.", view:show("flow", w.flow), view:show("small_flow", w.flow),
      view:show("length", w.head), w.share_of_label and
      (", %.0f %% of its flow at no lift (what labels print)"):format(100 * w.share_of_label) or "")
    if w.low_flow then add("With the pond at the intake minimum it gives %s.", view:show("flow", w.low_flow)) end
  else
    add("Pump: %s, as described%s.", view:show("flow", w.flow), w.solved and
      ("; its curve against these pipes gives %s"):format(view:show("flow", w.solved)) or "")
  end
  add("%s", defined.hours(d))
  local through = job.bed and job.bed.flow
  add("Turnover: %.2g an hour, by %s: %s.", tarn.bed.turnover(through or w.flow, job.facts.full_volume),
    through and "the bed's flow" or "the pump's flow", defined.turnover)
  if w.bed_flow and w.bed_flow > 0 and job.facts.bed_area > 0 then
    add("Bed: %s, or %s a day for each %s.", view:show("flow", w.bed_flow),
      view:show("volume", w.bed_flow * 86400 / job.facts.bed_area * (view.name == "us" and u.ft2 or 1)),
      view.name == "us" and "ft2" or "m2")
  end
  for _, line in ipairs(job.bed and report.way_to_lip(job.bed, view, "see the bed's lip") or {}) do add("Bed: %s", line) end
  for i, fall in ipairs(w.falls) do
    if fall.head then
      add("%s: %s wide, %s deep on the lip (head behind it %s), %s of its width: %s%s.",
        (d.falls[i].name or "Fall " .. i):gsub("^%l", string.upper), view:show("depth", fall.width),
        view:show("depth", fall.lip_depth), view:show("depth", fall.head),
        view.name == "us" and ("%.0f US gal/h per inch"):format(fall.flow_per_width * u.inch / u.gph)
          or ("%.1f L/s per m"):format(fall.flow_per_width * 1000),
        fall.look:gsub("_", " "), fall.throw and ("; it lands %s out"):format(view:show("depth", fall.throw)) or "")
    end
  end
  for i, run in ipairs(w.runs) do
    local told = d.pipes[i]
    if told.to == "pond" and told.orifice and run.flow then
      local jet = tarn.flow.jet { diameter = told.orifice, flow = run.flow / (told.orifices or 1) }
      add("Jets: %d of %s at %s; each stirs the water for %s (to %s). Sharp corners and the lee of stones stay dead: aim one there.",
        told.orifices or 1, view:show("depth", told.orifice), view:show("speed", run.orifice_velocity),
        view:show("length", jet.throw), view:show("speed", 0.1))
    end
  end
  if w.stream then
    add("Stream: %s deep at %s, %s.", view:show("depth", w.stream.depth), view:show("speed", w.stream.velocity),
      w.stream.state == "supercritical" and "fast and broken (supercritical)" or "quiet (subcritical)")
  end
  page:list(lines)
  water.pipes(page, job, view)
  local parts = {
    { "over the bed's lip", w.bed_transit, job.facts.bed_area > 0 and w.bed_from },
    { "stream", w.stream_transit, d.stream and w.stream_from }, { "pools behind falls", w.pools_transit, "solved" },
    { "pipes that drain back", w.drain_transit, w.drain_from },
  }
  local said = {}
  for _, part in ipairs(parts) do
    if part[2] > 0 or part[3] == "unknown" then
      said[#said + 1] = ("%s %s (%s)"):format(part[1], view:show("volume", part[2]), FROM[part[3]])
    end
  end
  page:paragraph("In transit while it runs: %s in all%s.", view:show("volume", job.facts.transit),
    #said > 0 and ": " .. table.concat(said, ", ") or "")
end

function water.pipes(page, job, view)
  local rows = {}
  for i, run in ipairs(job.works.runs) do
    local told = job.description.pipes[i]
    if run.flow then
      rows[#rows + 1] = { told.name or ("to the " .. (told.to or "bed")), view:cell("depth", run.diameter),
        view:cell("length", told.length), view:cell("flow", run.flow), view:cell("speed", run.velocity),
        view:cell("length", run.headloss) }
    end
  end
  if #rows > 0 then
    page:table({ "\nPipe", "Inside\n" .. view:unit("depth"), "Length\n" .. view:unit("length"), "Flow\n" .. view:unit("flow"),
      "Speed\n" .. view:unit("speed"), "Loss\n" .. view:unit("length") }, rows)
  end
end

function water.overflow(page, job, view)
  local s, storm, lines = job.storm, job.description.storm, {}
  local function add(...) lines[#lines + 1] = string.format(...) end
  page:heading("Overflow and storm")
  add("The overflow's lip stands %s under the edge. Lead it away from walls, foundations and neighbours; local rules say where to.",
    view:show("depth", job.chart.freeboard))
  if s then
    add("Design storm: %s for %.0f min%s%s: %s of water, %s at its peak.", view:show("storm", storm.intensity),
      (storm.duration or 3600) / 60, storm.years and (", once in %g years"):format(storm.years) or "",
      storm.stopped == false and "" or ", with the pump stopped", view:show("volume", s.rain), view:show("small_flow", s.peak))
    add("It begins at %s, where the pump's stop leaves the level; full to the lip, it rises higher.", view:level(s.start))
    local clogged = job.description.overflow.clogging or 0
    local opening = clogged > 0 and ("%.0f %% of the opening clogged"):format(100 * clogged) or "a clean opening"
    if s.edge_left < 0 then
      add("With %s it runs OVER THE EDGE, which would have to stand %s higher to hold it: make the overflow larger.", opening,
        view:show("depth", -s.edge_left))
    else
      add("It lifts the level %s over the lip with %s; %s are left to the edge.", view:show("depth", s.head), opening,
        view:show("depth", s.edge_left))
    end
    if not s.clogged_head then
      add("The openings cannot pass the peak under any head, as clogged: the pond's room alone holds the storm, or does not.")
    end
  else
    add("No storm was worked out: it needs `overflow` (width, standpipe or side_pipe) and `storm` (intensity from a local table).")
  end
  local bay = job.pond:intake()
  if bay then
    add("Intake: %s of open area and %s at the intake minimum, %s at normal high%s.",
      view:show("opening", bay.area_low), view:show("speed", bay.velocity_low), view:show("speed", bay.velocity_high),
      bay.over_limit and (": ABOVE the limit of " .. view:show("speed", job.description.bay.velocity_limit)) or "")
  end
  local suction = job.description.bay and job.description.bay.suction
  if suction and job.works.flow then
    local cover = tarn.flow.submergence(job.works.flow, suction)
    local highest = job.facts.intake and job.facts.intake - cover
    add("A suction of %s wants %s of water over it, or it draws air (ANSI/HI 9.8, as quoted)%s.", view:show("depth", suction),
      view:show("depth", cover), not highest and "" or highest > 0 and (": at the intake minimum its mouth must lie no more than %s above the floor")
        :format(view:show("depth", highest)) or ": at the intake minimum the pond is NOT DEEP ENOUGH for that")
  end
  page:list(lines)
end

return water

-- SPDX-License-Identifier: MIT
-- bed: how big a planted gravel bed must be, every check, and the trade-off
local args = require "common.args"
local doubts = require "common.doubts"
local findings = require "common.findings"
local inputs = require "common.inputs"
local new_page = require "common.page"
local outputs = require "common.outputs"
local screen = require "common.screen"
local view_of = require "common.view"
local plan = require "bed.plan"
local report = require "bed.report"
local checks = require "bed.checks"
local choices = require "bed.choices"
local drawing = require "bed.drawing"
local map = require "bed.map"

local spec = {
  usage = "tarn bed POND.lua [options]",
  purpose = "How big the bed must be: every rule, every check, what governs, the trade-off.",
  positions = { { name = "POND.lua", key = "pond", meaning = "description of the pond and its bed" } },
  options = {
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the report (us)" },
    screen.option "every rule of sizes, treatment, hydraulics, yard, trade-off, materials and assumptions",
    { name = "csv", value = "FILE", kind = "output", meaning = "write the trade-off grid, whole or not at all" },
    { name = "drawing", value = "FILE", kind = "output", meaning = "draw the bed's cross-section to scale (SVG)" },
    { name = "report", value = "FILE", kind = "output", meaning = "write the report as one HTML file, with pictures" },
  },
}

-- What the map shows, with what governs: a check that forbids the bed, or else
-- the rule that asks for most.
local function map_caption(job, view)
  local r, no = job.sized, {}
  for _, name in ipairs(tarn.bed.refusals()) do
    if r.flags[name] then no[#no + 1] = choices.meaning(choices.letter(name)) end
  end
  if #no > 0 then
    return ("Trade-off at %s: the ring is this bed, which does not do: %s"):format(view:show("flow", job.flow),
      table.concat(no, ", "))
  end
  return ("Trade-off at %s: the ring is this bed%s"):format(view:show("flow", job.flow), r.governs and
    ("; %s governs and asks for %s"):format(report.names[r.governs], view:show("area", r.needed)) or "")
end

local asked = args.read(spec)
local view = view_of(asked.units or "us")
local pond, description, _, located, place = inputs.pond(asked.pond)
local job = plan.of(pond, description, located)
local function section() return drawing.section(job, view) end

local function begun()
  local page = new_page((description.name or asked.pond) .. ": the bed")
  local found = findings.of(view, job.checks)
  doubts.add_pond(found, pond, view, located(pond.findings, pond), place)
  page:found(found)
  return page
end

local function full()
  local page = begun()
  report.answer(page, job, view)
  page:figure(section, "Cross-section of the bed, from the inlet to the lip", { natural = true })
  page:figure(function() return map(job, view) end, map_caption(job, view))
  checks.every(page, job, view)
  report.demand(page, job, view)
  report.sizes(page, job, view)
  checks.treatment(page, job, view)
  checks.hydraulics(page, job, view)
  checks.yard(page, job, view)
  choices.tradeoff(page, job, view)
  choices.chance(page, job, view)
  choices.materials(page, job, view)
  choices.assumptions(page, job, view)
  choices.ledger(page, job, view)
  choices.cautions(page)
  return page
end

-- One screen, where not all is asked for.
local function short()
  local page = begun()
  page:paragraph("%s", screen.pond(pond, view))
  report.answer(page, job, view)
  checks.nearest(page, job, view)
  page:list(choices.stone(job, view))
  screen.close(page, "A size, no promise of clear or safe water: stock slowly, test the water. Wet stone is heavy, dug walls fall in, children drown in inches of water: walls, slopes, footings and wiring are licensed people's; local codes rule; call before you dig.",
    "--full prints every rule and check, treatment, hydraulics, yard, trade-off, materials and what to paste; --report FILE.html has them with pictures, --drawing FILE the section.")
  return page
end

local page, whole = outputs.pages(asked.full, full, short)
return outputs.finish(page, {
  { asked.drawing, section, "The cross-section" },
  { asked.csv, function() return choices.csv(job) end, "The trade-off grid" },
  { asked.report, function() return whole():html(outputs.sources(asked.pond)) end, "The report with pictures" },
})

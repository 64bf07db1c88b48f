-- bed: how big a planted gravel bed must be, every check, and the trade-off
local args = require "common.args"
local inputs = require "common.inputs"
local view_of = require "common.view"
local plan = require "bed.plan"
local report = require "bed.report"
local checks = require "bed.checks"
local choices = require "bed.choices"
local drawing = require "bed.drawing"

local spec = {
  usage = "tarn bed POND.lua [options]",
  purpose = "How big the bed must be: every rule, every check, what governs, the trade-off.",
  positions = { { name = "POND.lua", key = "pond", meaning = "description of the pond and its bed" } },
  options = {
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the report (us)" },
    { name = "csv", value = "FILE", meaning = "write the trade-off grid, whole or not at all" },
    { name = "drawing", value = "FILE", meaning = "draw the bed's cross-section to scale (SVG)" },
  },
}

local asked = args.read(spec)
local view = view_of(asked.units or "us")
local pond, description, source = inputs.pond(asked.pond)
local job = plan.of(pond, description, source, asked.pond)

local files = { asked.pond }
if asked.drawing and asked.drawing == asked.csv then tarn.mistake("--drawing and --csv name the same file") end
if asked.drawing then tarn.write_file(asked.drawing, drawing.section(job, view), files) end
if asked.csv then tarn.write_file(asked.csv, choices.csv(job), files) end

local title = (description.name or asked.pond) .. ": the bed"
io.write(title, "\n", ("="):rep(utf8.len(title) or #title), "\n")
report.answer(job, view)
report.demand(job, view)
report.sizes(job, view)
checks.treatment(job)
checks.hydraulics(job, view)
checks.every(job, view)
checks.yard(job, view)
choices.tradeoff(job, view)
choices.chance(job, view)
choices.materials(job, view)
choices.assumptions(job)
choices.ledger(job, view)
choices.cautions()
if asked.csv then io.write("\nThe trade-off grid is in ", asked.csv, "\n") end
if asked.drawing then io.write("\nThe cross-section is in ", asked.drawing, "\n") end

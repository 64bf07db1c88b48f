-- SPDX-License-Identifier: MIT
-- The trade-off, the chances, the materials, and what was assumed.
local plan = require "bed.plan"
local report = require "bed.report"
local text = require "common.text"

local choices = {}
local about = report.about

-- ---- trade-off ------------------------------------------------------------------------

local LETTERS = {
  does_not_fit = "Y", target_missed = "T", flow_short = "F", anaerobic = "O", head_short = "H", water_on_gravel = "W",
  section_overload = "S",
}
local MEANING = {
  Y = "Y does not fit the yard", T = "T target missed", F = "F flow too small for the target by any bed",
  O = "O oxygen runs out", H = "H more head than there is", W = "W water stands on the gravel",
  S = "S too much BOD on the section",
}

function choices.letter(name) return LETTERS[name] end

-- What a letter means, in words alone.
function choices.meaning(letter) return MEANING[letter]:sub(3) end

local function verdict(cell, seen)
  local out = {}
  for _, name in ipairs(tarn.bed.refusals()) do
    if cell.flags[name] then
      out[#out + 1] = LETTERS[name]
      seen[LETTERS[name]] = true
    end
  end
  return #out > 0 and "no: " .. table.concat(out, " ") or cell.flags.area_overload and "ok, but !" or "ok"
end

function choices.tradeoff(page, job, view)
  local rows, seen, last, over = {}, {}, nil, false
  local cells, flows = plan.cells(job, "sizes").cells, plan.cells(job, "flows").cells
  for _, cell in ipairs(table.move(flows, 1, #flows, #cells + 1, cells)) do
    if last and cell.flow ~= last then rows[#rows + 1] = "-" end
    last = cell.flow
    local word = verdict(cell, seen)
    over = over or word:find("!") ~= nil
    rows[#rows + 1] = { view:cell("area", cell.area), view:cell("layer", cell.depth), view:cell("flow", cell.flow),
      about(cell.loading), report.minutes(cell.residence), about(cell.pond or cell.outlet),
      cell.clogged and about(view:value("head", cell.clogged)) or "-", word }
  end
  local treated = job.sized.pond and "Pond N\nmg/L" or "Outlet\nmg/L"
  page:heading("Trade-off: area, depth, flow")
  page:table({ "Area\n" .. view:unit("area"), "Wet depth\n" .. view:unit("layer"), "Flow\n" ..
    view:unit("flow"), "Loading\nm/d", "\nContact", treated, "Clogged\n" .. view:unit("head"), "\nDoes it do" }, rows)
  local why = {}
  for _, name in ipairs(tarn.bed.refusals()) do
    if seen[LETTERS[name]] then why[#why + 1] = MEANING[LETTERS[name]] end
  end
  if over then why[#why + 1] = "! more BOD or solids on the plan than is usual" end
  if #why > 0 then page:paragraph("Why not: " .. table.concat(why, "; ") .. ".") end
  page:paragraph("Beds keep their way to the lip and grow wider, as far as the yard lets them; layers are laid thinner or thicker in proportion. --csv FILE writes a finer grid.")
end

local COLUMNS = { "area", "depth", "flow", "loading", "surface_share", "volume_share", "turnover", "residence", "volume",
  "water", "mass", "velocity", "clean", "clogged", "rise", "head_needed", "pond", "outlet", "extrapolation",
  "oxygen_out", "bod_g_m2", "solids_g_m2" }
local HEADS = "area_m2,wet_depth_m,flow_m3s,loading_m_d,share_of_surface,share_of_volume,turnover_per_h,contact_s," ..
  "wet_volume_m3,water_m3,wet_stone_kg,velocity_ms,head_clean_m,head_clogged_m,rise_m,head_needed_m,pond_ammonia_mgl," ..
  "outlet_mgl,over_measured_loading,oxygen_out_mgl,bod_g_m2_d,solids_g_m2_d,does_it_do,why_not"

function choices.csv(job)
  local out = { HEADS }
  for _, cell in ipairs(plan.cells(job, "full").cells) do
    local row, why = {}, {}
    for i, name in ipairs(COLUMNS) do row[i] = cell[name] and ("%.9g"):format(cell[name]) or "" end
    for _, name in ipairs(tarn.bed.refusals()) do
      if cell.flags[name] then why[#why + 1] = name end
    end
    row[#row + 1], row[#row + 2] = cell.refused and "no" or "yes", table.concat(why, " ")
    out[#out + 1] = table.concat(row, ",")
  end
  return table.concat(out, "\n") .. "\n"
end

-- ---- chances ---------------------------------------------------------------------------

function choices.chance(page, job, view)
  local r, rows = plan.chance(job), {}
  local function add(label, p, show)
    if p then rows[#rows + 1] = { label, show(p.p5), show(p.p25), show(p.p50), show(p.p75), show(p.p95) } end
  end
  add("Ammonia N in the pond, mg/L", r.pond, about)
  add("After one pass, mg/L", r.outlet, about)
  add("Contact, minutes", r.residence, function(s) return about(s / 60) end)
  add("Head when clogged, " .. view:unit("head"), r.clogged, function(m) return about(view:value("head", m)) end)
  page:heading("If the inputs are uncertain")
  if #rows > 0 then page:table({ "Percentile", "5", "25", "50", "75", "95" }, rows) end
  local c = r.inputs
  page:paragraph(("%.0f beds tried with the seed %.0f: porosity +- %g; removal rate, load and flow varying by %g, %g and %g of their value (%s). A check forbids %s of them.")
    :format(c.samples, c.seed, c.porosity_sd, c.k_cv, c.load_cv, c.flow_cv,
      job.d.chance and "as described" or "spreads of our own choice", report.percent(r.refused)))
end

-- ---- materials -------------------------------------------------------------------------

function choices.materials(page, job, view)
  page:heading("Materials")
  if not job.stack then
    page:paragraph("Stone: %s, %s dry. Describe bed.layers for a list.", view:show("bulk", job.stone_volume),
      job.stone_mass and view:show("mass", job.stone_mass) or "mass not known")
    return
  end
  local rows, ton = {}, view.name == "us" and { "tons", tarn.units.ton } or { "t", tarn.units.tonne }
  for i, layer in ipairs(job.stack.layers) do
    rows[i] = { layer.name ~= "" and layer.name or "layer " .. i, report.stone(layer, view),
      view:cell("layer", layer.thickness), view:cell("bulk", layer.volume),
      layer.diameter and text.number(layer.mass / ton[2], 2) or "-", view:cell("volume", layer.water) }
  end
  rows[#rows + 1] = "-"
  rows[#rows + 1] = { "in all", "", view:cell("layer", job.stack.depth), view:cell("bulk", job.stack.volume),
    text.number(job.stack.mass / ton[2], 2), view:cell("volume", job.stack.water) }
  page:table({ "Layer, from\nthe bottom", "\nStone", "Thick\n" .. view:unit("layer"), "In place\n" ..
    view:unit("bulk"), "Dry\n" .. ton[1], "Water held\n" .. view:unit("volume") }, rows)
  report.lines(page, {
    "In place and dry, without waste: 5 to 10 % more is usual (common practice, no source). Wash it: fines clog a bed from the start.",
    ("Full of water the bed weighs %s; ask what lies under it."):format(view:show("mass",
      job.stack.mass + job.stack.water * 1000)),
  })
end

-- The stone in a sentence, as a list.
function choices.stone(job, view)
  if not job.stack then return {} end
  return { ("Stone, dry and in place: %s, %s; full of water the bed weighs %s."):format(view:show("bulk", job.stack.volume),
    view:show("load", job.stack.mass), view:show("mass", job.stack.mass + job.stack.water * 1000)) }
end

-- ---- assumptions and cautions ---------------------------------------------------------------

function choices.assumptions(page, job, view)
  local list, d, r = {}, job.d, job.sized
  local function add(...) list[#list + 1] = string.format(...) end
  add("Water at %s%s.", view:temp(job.wish.temp), job.water.temp and "" or " (not described: water.temp)")
  if d.fish and not d.fish.feed then
    add("Feed from the mass of fish: %g %% of it a day when warm, less under %s, none under %s (common practice; the line between is ours).",
      100 * job.wish.ration, view:temp(21), view:temp(10))
  end
  if r.flags.oxygen_assumed then add("Oxygen at the inlet: 0.8 of saturation (ours), as it is not described.") end
  if r.flags.loading_assumed then add("%s.", r.flags.loading_assumed:gsub("^the", "The")) end
  local t = d.treatment
  if t and (t.k or t.rate) then
    add(t.tanks_in_series and "Way through the bed: %g mixed tanks in series." or
      "Way through the bed: plug flow, the most that a bed can do; real ones mix (treatment.tanks_in_series = 3 to 6), and ask for more area where a pass has to clear much. Rain and evaporation on the way are left out here (tarn.bed.profile has them).", t.tanks_in_series)
  end
  if not job.bed.layers and not job.bed.diameter then add("No stone is described: head and tonnage are not judged.") end
  if job.bed.layers then add("A layer's weight is (1 - porosity) x 2650 kg/m3 where bulk_density is not given.") end
  if not job.available_head then add("Head to spare is not described (bed.available_head or bed.drop), so it is not checked.") end
  if not job.lip_head then
    add("The head over the lip is not described (bed.lip_head, or the bed's fall: falls with bed = true), so it is taken as none.")
  end
  if not d.yard then add("No yard is described: whether the bed fits is not checked.") end
  if r.flags.no_chamber then add("%s.", r.flags.no_chamber:gsub("^no", "No")) end
  if r.flags.no_darcy then add("%s.", r.flags.no_darcy:gsub("^the", "The")) end
  add("The pond is one mixed tank; the bed is fed evenly and all of it works. Dead corners and channels take their share.")
  add("Equations, sources and ranges: docs/methods/bed.md.")
  page:heading("Method and assumptions")
  page:list(list)
end

function choices.cautions(page)
  page:heading("Cautions")
  page:list {
    "A size, not a promise of clear or safe water: test the water of a new pond, and stock slowly. A bed needs weeks of warm water before it nitrifies.",
    "Stone clogs: build a clean-out that a hose and a pump can reach, and keep leaves out before the bed.",
    "Wet stone is heavy and dug walls fall in: retaining walls, slopes, footings and any hole that a person enters belong to licensed people and local codes. Call before you dig.",
    "Water over inches deep is a danger to children; mains power near water belongs to a licensed electrician, on a ground-fault protected circuit.",
  }
end

-- ---- into the ledger ----------------------------------------------------------------------

local function measure(view)
  if view.name == "us" then
    return function(m) return ("%.6g * ft"):format(m / tarn.units.ft) end,
      function(m) return ("%.6g * inch"):format(m / tarn.units.inch) end
  end
  return function(m) return ("%.6g * m"):format(m) end, function(m) return ("%.6g * cm"):format(m / tarn.units.cm) end
end

local function quoted(s) return ("%q"):format(s) end

local function section_of(name)
  for _, section in ipairs(tarn.pond_fields()) do
    if section.section == name then return section end
  end
end

-- Units of other fields, as a description multiplies them.
local WRITTEN = { ["kg/m3"] = " * kg / m3", ["m/d"] = " * m_per_day", ["m3/s"] = " * m3 / second", m2 = " * m2", m3 = " * m3" }

-- A value as a description has it.
local function text_of(row, value, small)
  if type(value) == "table" then
    local months = {}
    for i, x in ipairs(value) do months[i] = ("%.4g"):format(x) end
    return "{ " .. table.concat(months, ", ") .. " }"
  end
  if type(value) == "string" then return quoted(value) end
  if type(value) == "boolean" then return tostring(value) end
  return row.unit == "m" and small(value) or ("%.9g%s"):format(value, WRITTEN[row.unit] or "")
end

-- The fields of a table that are there, in the order of their rows; by month the default too.
local function fields_of(section, values, small, without)
  local list = {}
  for _, row in ipairs(section) do
    local value = values[row.name]
    if value == nil and row.kind == "months" then value = row.default end
    if value ~= nil and not without[row.name] then
      list[#list + 1] = row.name .. " = " .. text_of(row, value, small)
    end
  end
  return list
end

-- What follows from the chosen size, and what the stone's own lines have.
local SIZE = { length = true, width = true, area = true, volume = true, depth = true, porosity = true, diameter = true }

-- The section that describes this bed, as text of a description.
function choices.section(job, view)
  local long, small = measure(view)
  local out, bed = { "  bed = {" }, job.bed
  local function add(...) out[#out + 1] = "    " .. string.format(...) end
  add("length = %s, width = %s,", long(job.length), long(job.width))
  if bed.layers then
    add("layers = {")
    for _, layer in ipairs(bed.layers) do
      local cells = fields_of(section_of "layer", layer, small, {})
      add("  { name = %s, %s },", quoted(layer.name or ""), table.concat(cells, ", "))
    end
    add("},")
  else
    add("depth = %s,%s", small(bed.depth), bed.porosity and (" porosity = %.6g,"):format(bed.porosity) or "")
    if bed.diameter then add("diameter = %s,", small(bed.diameter)) end
  end
  for _, field in ipairs(fields_of(section_of "bed", bed, small, SIZE)) do add("%s,", field) end
  out[#out + 1] = "  },"
  return table.concat(out, "\n") .. "\n"
end

function choices.ledger(page, job, view)
  page:heading("For the ledger")
  if job.chosen == "described" then
    page:paragraph("`tarn topup` on the same description counts this bed: its plants on %s, its water of %s.",
      view:show("area", job.facts.bed_area), view:show("volume", job.facts.bed_water))
    return
  end
  page:paragraph("Put this section in place of the description's own, and `tarn topup` counts the bed:")
  page:code(choices.section(job, view))
end

return choices

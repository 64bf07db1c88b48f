-- SPDX-License-Identifier: MIT
-- The page of a bed: the answer, the demand, and the size by every rule.
local defined = require "common.defined"
local plan = require "bed.plan"
local text = require "common.text"

local report = {}

local function lines(page, list)
  for _, line in ipairs(list) do page:paragraph(line) end
end

-- A few significant digits, for figures that are estimates.
local function about(x)
  if not x then return "-" end
  if x == 0 then return "0" end
  local digits = math.max(0, 1 - math.floor(math.log(math.abs(x), 10) + 1e-9))
  return text.number(x, math.min(digits, 4))
end

local function percent(x)
  return x and text.number(100 * x) .. " %" or "-"
end

local function times(factor)
  if not factor then return "not known" end
  if math.abs(factor - 1) < 1e-9 then return "inside" end
  local far = math.max(factor, 1 / factor)
  return (far < 1.095 and ("%.2f"):format(far) or about(far)) .. (factor > 1 and " x over" or " x under")
end

-- A range of loadings, m/d.
local function span(low, high)
  return low == high and ("%.3g"):format(low) or ("%.3g to %.3g"):format(low, high)
end

-- The loading beside a range: "1.1 x under 80 to 120".
local function against(factor, low, high)
  return factor and ("%s %s"):format(times(factor), span(low, high)) or "not known"
end

local function minutes(seconds)
  if not seconds then return "-" end
  return seconds < 7200 and about(seconds / 60) .. " min" or about(seconds / 3600) .. " h"
end

-- Stone by its size, in eighths of an inch where they meet it; or what a layer
-- without stone is.
-- The water's way to the lip: the level at the place farthest from it, clean
-- and clogged, and the trough that is described or wanted.  'from' tells where
-- the head over the lip is from.
function report.way_to_lip(job, view, from)
  local r, lines = job.sized, {}
  if not job.level_clogged then return lines end
  local place = job.bed.lip_place == "corner" and "at a corner" or "in the middle"
  lines[1] = ("Water must run through the stone to the lip: %s wide, %s of its side of %s%s. The farthest water is %s over the lip when clean and %s when clogged%s, under %s of dry stone.")
    :format(view:show("depth", r.lip), place, view:show("length", job.width),
      job.lip_width and "" or " (taken as wide as that side: nothing tells its width)",
      view:show("head", job.level_clear), view:show("head", job.level_clogged),
      job.lip_head and (" (with the %s of head at the lip, %s)"):format(view:show("head", job.lip_head), from) or "",
      view:show("layer", job.wish.cover))
  if job.lip_from == "trough" then
    lines[2] = ("The trough along that side, %s wide, its floor %s under the lip, takes %s of that. Keep it level and open.")
      :format(view:show("layer", job.bed.trough_width), view:show("layer", job.bed.trough_depth), view:show("head", r.trough))
  elseif job.trough_width then
    lines[2] = ("An open trough along that side keeps the stone dry: %s wide, level, its floor %s under the lip (bed.trough_width, bed.trough_depth).")
      :format(view:show("layer", job.trough_width), view:show("layer", job.trough_depth))
  elseif job.trough_wanted then
    lines[2] = ("No open trough up to %s wide and as deep keeps the stone dry: shorten the way from the far side, coarsen the top layer, lower the lip or make it wider.")
      :format(view:show("layer", 0.4))
  end
  return lines
end

function report.stone(layer, view)
  if layer.unknown then return "stone" end
  if not layer.diameter then return "open water" end
  local eighths = layer.diameter / tarn.units.inch * 8
  local whole = math.floor(eighths + 0.5)
  if view.name ~= "us" or whole == 0 or math.abs(eighths / whole - 1) > 0.005 then
    return view:show("stone", layer.diameter) .. " stone"
  end
  local inches, rest, below = whole // 8, whole % 8, 8
  while rest > 0 and rest % 2 == 0 do rest, below = rest // 2, below // 2 end
  local fraction = rest > 0 and ("%d/%d"):format(rest, below) or nil
  return (inches > 0 and fraction and inches .. "-" .. fraction or fraction or tostring(inches)) .. " in stone"
end

local NAMES = {
  loading = "loading wished", surface = "share of surface wished", volume = "share of volume wished",
  pond_target = "ammonia in the pond", pass = "target in one pass", media = "nitrification on the stone",
  bod = "BOD on the plan area", solids = "solids on the plan area",
}

-- ---- the answer ------------------------------------------------------------------

-- Open water under the stone.
function report.chamber(job)
  local layers = job.bed.layers
  return layers ~= nil and not layers[1].diameter
end

local function size_of(job, view)
  return ("%s from lip to far side, %s along the lip (%s), %s of %s")
    :format(view:show("length", job.length), view:show("length", job.width), view:show("area", job.sized.area),
      view:show("layer", job.full_depth), report.chamber(job) and "stone and chamber" or "stone")
end

local function loading_of(r, view)
  local shown = view:show("loading", r.loading)
  return view.name == "us" and ("%s (%.3g m/d)"):format(shown, r.loading) or shown
end

local VERDICT = {
  described = "The bed described", needed = "The bed that all size rules ask for", fits = "The largest bed that the yard holds",
}

-- What a check forbids governs before any size.
local function governs_line(job, view, forbidden)
  local r = job.sized
  if not r.governs then return "Nothing was asked that sizes the bed: it is only judged." end
  local line = ("What governs: %s, which asks for %s"):format(NAMES[r.governs], view:show("area", r.needed))
  if forbidden then
    line = ("That governs, not a size: the greatest size asked for is %s (%s)"):format(view:show("area", r.needed), NAMES[r.governs])
  end
  if r.flags.too_small then
    return line .. (": the bed is %s short of it."):format(percent(1 - r.area / r.needed))
  end
  return line .. "; the bed has that."
end

local function ammonia_line(job, view)
  local r = job.sized
  if not r.pond then return nil end
  if job.unfed then
    return ("No feeding is reckoned at %s, so there is no load, and treatment is not judged: fish still breathe and give off some ammonia, and beds work least in the cold. Give water.temp of the feeding season.")
      :format(view:temp(job.wish.temp))
  end
  local rated = "of which nobody says at what loading it was measured"
  if r.extrapolation then
    rated = ("measured at %s m/d (this bed is %s)"):format(span(job.k_low, job.k_high), times(r.extrapolation))
  end
  return ("Ammonia nitrogen in the pond would settle near %s mg/L, by a removal rate %s: %s.")
    :format(about(r.pond), rated, r.extrapolation == 1 and "an estimate" or "a guess, no promise")
end

-- Why a bed does not do, in words; empty if no check forbids it.
local function refusals(r)
  local out = {}
  for _, name in ipairs(tarn.bed.refusals()) do
    if r.flags[name] then out[#out + 1] = r.flags[name] end
  end
  return out
end

function report.answer(page, job, view)
  local r, no = job.sized, refusals(job.sized)
  lines(page, {
    ("%s: %s, with %s going through."):format(VERDICT[job.chosen], size_of(job, view), view:show("flow", job.flow)),
    ("That is a surface loading of %s, %s of the pond's surface and %s of its volume, and %s of contact.")
      :format(loading_of(r, view), percent(r.surface_share), percent(r.volume_share), minutes(r.residence)),
    #no > 0 and "It does not do: " .. table.concat(no, "; ") .. "." or job.fit and "It fits the yard."
      or "Whether it fits a yard was not asked.",
    governs_line(job, view, #no > 0),
    ammonia_line(job, view),
  })
end

-- ---- demand -------------------------------------------------------------------------

local function put_load(page, job, view)
  local w = job.waste
  if not w then
    page:paragraph("No fish are described, so no load: ammonia, solids and oxygen are not judged.")
    return
  end
  lines(page, {
    ("Fish: %s g of feed a day at %s bring %s g of ammonia nitrogen (rules in use: %s to %s g), %s g of solids and %s g of phosphorus.")
      :format(about(w.feed_g), view:temp(job.wish.temp), about(w.ammonia_g), about(w.ammonia_low_g), about(w.ammonia_high_g),
        about(w.solids_g), about(w.phosphorus_g)),
    ("They breathe %s g of oxygen, nitrification takes %s g and %s g of alkalinity (as CaCO3) a day.")
      :format(about(w.fish_oxygen_g), about(w.nitrification_oxygen_g), about(w.alkalinity_g)),
  })
end

local DEMANDS = {
  turnover = { "Turnover", "as wished" }, falls = { "Falls", "weir, level broad crest" },
  oxygen = { "Oxygen for the bed", "%g mg/L left at its outlet" }, ammonia = { "Ammonia", "a perfect bed" },
}
local FLOW_FROM = { bed = "bed.flow", pump = "pump.flow", curve = "the pump's curve" }

function report.demand(page, job, view)
  page:heading("Demand and flow")
  page:paragraph("Pond at its lip: %s of surface, %s of basin.", view:show("area", job.surface),
    view:show("volume", job.volume))
  put_load(page, job, view)
  local rows, greatest = {}, job.greatest and DEMANDS[job.greatest][1]:lower()
  local breath = plan.check(job, "oxygen")
  for _, demand in ipairs(job.demands) do
    local name, why = table.unpack(DEMANDS[demand.name])
    rows[#rows + 1] = { name, view:cell("flow", demand.flow), ("%.2g"):format(tarn.bed.turnover(demand.flow, job.volume)),
      percent(demand.flow / job.flow), why:format(breath and breath.low) }
  end
  rows[#rows + 1] = { "Taken", view:cell("flow", job.flow), ("%.2g"):format(job.sized.turnover), "100 %",
    FLOW_FROM[job.flow_from] or "the greatest demand: " .. greatest }
  page:table({ "\nFlow wanted for", "\n" .. view:unit("flow"), "Turnovers\nan hour", "of the\ntaken", "\nreckoned by" }, rows)
  page:paragraph(("Turnovers: %s. %s%s"):format(defined.turnover, defined.hours(job.d), job.d.pump and job.d.pump.hours and
    " The figures here take it to run all day: with fewer hours the bed does less." or ""))
  page:paragraph("In a mixed pond %s of the water has been through the bed after an hour, 95 %% after 3 turnovers. A pump's label gives its flow at no head: take the flow at its head.",
    percent(tarn.bed.exposed(job.sized.turnover)))
end

-- ---- size -----------------------------------------------------------------------------

local function area_row(label, area, job, view, more)
  return { label, view:cell("area", area), percent(area / job.surface), percent(area * job.depth / job.volume),
    more }
end

-- What is known of a number, in a word for tables.
local BRIEF = {
  ["our sum from published inputs"] = "our sum", ["common practice, no source"] = "practice",
}

local function brief(evidence) return BRIEF[evidence] or evidence end

-- A size by a removal rate is worth what the rate is.
local RATED = { pond_target = true, pass = true }

local function basis_of(m, job)
  if not RATED[m.name] then return brief(m.evidence) end
  local factor = job.sized.extrapolation
  return factor and against(factor, job.k_low, job.k_high) or "rate unplaced"
end

local function put_methods(page, job, view)
  local rows, heads = {}, { "\nBy", "Area\n" .. view:unit("area"), "Share of\nsurface", "of the\nvolume", "\nknown by" }
  for _, m in ipairs(job.sized.methods) do
    rows[#rows + 1] = area_row((m.governs and "* " or "  ") .. NAMES[m.name], m.area, job, view, basis_of(m, job))
  end
  if job.sized.flags.flow_short then
    rows[#rows + 1] = { "  " .. NAMES.pond_target, "none", "-", "-", "flow too small" }
  end
  if #rows == 0 then return end
  rows[#rows + 1] = "-"
  rows[#rows + 1] = area_row("  this bed", job.sized.area, job, view, "")
  page:table(heads, rows)
  page:paragraph("* the greatest. Volume: that under water, stone and all. Practice: common, no source. x over, x under: this bed's loading beside those [m/d] at which the removal rate was measured.")
end

local PURPOSES = {
  sewage = "sewage beds", aquaculture = "fish farms", swimming = "swim ponds", roughing = "roughing",
}
local WEAKEST = { ["from memory"] = "memory" }

local function put_published(page, job, view)
  local rows = {}
  for i, p in ipairs(job.answer:published()) do
    rows[i] = { p.part == 0 and PURPOSES[p.purpose] or "upflow*", span(p.low, p.high), view:cell("area", p.area_low),
      view:cell("area", p.area_high), times(p.factor), WEAKEST[p.evidence] or brief(p.evidence) }
  end
  page:table({ "Loadings with\na source", "\nm/d", "Area from\n" .. view:unit("area"),
    "to\n" .. view:unit("area"), "\nthis bed", "known by,\nthe weakest" }, rows)
  page:paragraph("* A gravel filter after an anaerobic reactor: it clarifies, no more is claimed.")
end

local function put_practice(page, job, view)
  local rows = {}
  for _, rule in ipairs(job.answer:practice()) do
    local share = rule.low == rule.high and percent(rule.low) or ("%s to %s"):format(text.number(100 * rule.low),
      percent(rule.high))
    rows[#rows + 1] = { ("%s of the %s"):format(share, rule.basis), view:cell("area", rule.area_low),
      view:cell("area", rule.area_high) }
  end
  for _, kind in ipairs(job.sized.kinds) do
    if kind.name == "bog" then
      rows[#rows + 1] = { "garden bog, 72 to 120 m/d", view:cell("area", kind.low), view:cell("area", kind.high) }
    end
  end
  page:table({ "Common practice,\nno source", "Area from\n" .. view:unit("area"), "to\n" .. view:unit("area") }, rows)
end

function report.sizes(page, job, view)
  page:heading("How big")
  put_methods(page, job, view)
  put_published(page, job, view)
  put_practice(page, job, view)
end

report.times, report.about, report.percent, report.minutes, report.lines = times, about, percent, minutes, lines
report.names, report.refusals = NAMES, refusals
report.brief, report.loading, report.span, report.against = brief, loading_of, span, against

return report

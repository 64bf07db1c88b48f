-- SPDX-License-Identifier: MIT
-- What the bed does: ammonia, water through the stone, every check, the yard.
local plan = require "bed.plan"
local report = require "bed.report"
local text = require "common.text"

local checks = {}
local about, brief, lines, minutes = report.about, report.brief, report.lines, report.minutes

-- ---- treatment ---------------------------------------------------------------------------

local function rate_name(r)
  if r.described then return "* described" end
  return r.trial and r.name:gsub(",? ?fish pond in recirculation", ", fish pond")
    :gsub("horizontal root%-zone bed, ", ""):gsub("vertical%-flow wetland, ", "") or r.name
end

local function rate_rows(job)
  local list = {}
  for i, r in ipairs(plan.rates(job)) do
    list[i] = { rate_name(r), text.number(r.k_m_yr), about(r.pond), report.against(r.extrapolation, r.k_low, r.k_high),
      r.described and (r.name or "") or brief(r.evidence) }
  end
  return list
end

function checks.treatment(page, job, view)
  local w, t = job.waste, job.treatment
  if not w then return end
  page:heading("Ammonia in the pond, when steady")
  page:table({ "\nRemoval rate of", "k\nm/yr", "Pond\nmg/L N", "This bed, beside\nits loadings, m/d", "\nbasis" }, rate_rows(job))
  local say = {
    "These rates come from treatment practice: the two named ones of sewage beds, at 0.02 to 0.3 m/d; fish farms at 0.3 to 15 m/d. None was measured in a garden bed; the column of loadings says how far outside each this bed is. A bed at 50 m/d is not said to remove what one at 0.05 m/d does.",
  }
  local r = job.sized
  if not (t.k or t.rate) then
    say[#say + 1] = "No rate was chosen (treatment.k or treatment.rate), so ammonia does not size the bed."
  elseif r.pond then
    say[#say + 1] = ("With the described rate half of a change is over in %s days and 95 %% in %s.")
      :format(about(job.half_days), about(job.settled_days))
    if r.extrapolation and r.extrapolation < 1 then
      say[#say + 1] = "This bed is slower than those of the rate. Rates grow with the loading: here it errs to the unsafe side."
    end
    if job.unionised_share then
      say[#say + 1] = ("At pH %g and %s %.2g %% of it is un-ionised, the toxic part: %s mg/L."):format(job.water.ph,
        view:temp(job.wish.temp), 100 * job.unionised_share, ("%.2g"):format(job.unionised))
    end
  end
  say[#say + 1] = ("Nitrate is what nitrification leaves: up to %.2g mg/L N more each day, and phosphorus %.2g. Plants that are harvested, sludge that is taken out and changes of water remove them.")
    :format(job.nitrate_per_day, job.phosphorus_per_day)
  lines(page, say)
end

-- ---- hydraulics ------------------------------------------------------------------------------

local function put_layers(page, job, view)
  local rows = {}
  for i = #job.stack.layers, 1, -1 do
    local layer = job.stack.layers[i]
    rows[#rows + 1] = { layer.name ~= "" and layer.name or "layer " .. i, view:cell("layer", layer.thickness),
      report.stone(layer, view), layer.clean and layer.diameter and about(view:value("head", layer.clean)) or "-",
      layer.diameter and about(view:value("head", layer.clogged)) or "-",
      layer.reynolds and about(layer.reynolds) or "-" }
  end
  rows[#rows + 1] = "-"
  rows[#rows + 1] = { "in all", view:cell("layer", job.stack.depth), "", about(view:value("head", job.stack.clean)),
    about(view:value("head", job.stack.clogged)), "" }
  page:table({ "\nLayer, from the top", "Thick\n" .. view:unit("layer"), "\nStone", "Head, clean\n" ..
    view:unit("head"), "clogged\n" .. view:unit("head"), "\nReynolds" }, rows)
end

local HEAD_FROM = { described = "bed.lip_head", solved = "worked out from the bed's fall" }

function checks.hydraulics(page, job, view)
  local r = job.sized
  page:heading("Water through the stone")
  if job.stack then put_layers(page, job, view) end
  local say = {
    ("Surface loading: %.3g m/d = %.3g m/h = %.3g gpm/ft2 = %.3g gph/ft2."):format(r.loading,
      r.loading / tarn.units.m_per_hour, r.loading / tarn.units.gpm_per_ft2, r.loading / tarn.units.gph_per_ft2),
    ("Clogged is %g times the clean loss, a factor to be chosen; US EPA (2000, from memory) designs with 10 to 100.")
      :format(job.wish.clogging),
    ("The voids hold %s, so water takes %s at the most; tracers showed 0.68 to 0.87 of that.")
      :format(view:show("volume", r.water), minutes(r.residence)),
  }
  if r.flow_regime then
    say[#say + 1] = ("Flow in the largest stone: %s; Ergun's law is used."):format(r.flow_regime)
  end
  if r.head_needed then
    say[#say + 1] = ("Head needed when clogged, with the water over the lip: %s; to spare: %s."):format(
      view:show("head", r.head_needed), job.available_head and view:show("head", job.available_head)
        .. (job.bed.available_head and "" or " (the drop to the pond)") or "not described")
  end
  for _, line in ipairs(report.way_to_lip(job, view, job.lip_head and HEAD_FROM[job.head_from])) do say[#say + 1] = line end
  lines(page, say)
end

-- ---- checks -----------------------------------------------------------------------------------

local function flow_for(what)
  return function(c, _, view)
    return ("Flow for %s, %s"):format(what, view:unit("flow")), view:cell("flow", c.value), "at least " .. view:cell("flow", c.low)
  end
end

-- Each check in words: name, value, and what it stands against.
local SAY = {
  flow = flow_for "ammonia", turnover = flow_for "turnover", falls = flow_for "the falls", breath = flow_for "oxygen",
  loading = function(c, job)
    return "Surface loading, m/d", about(c.value), report.against(job.sized.loading_factor, c.low, c.high)
  end,
  area = function(c, _, view)
    return "Area, " .. view:unit("area"), view:cell("area", c.value), "at least " .. view:cell("area", c.low)
  end,
  ammonia = function(c) return "Ammonia N in the pond, mg/L", about(c.value), ("at most %g"):format(c.high) end,
  outlet = function(c) return "After one pass, mg/L", about(c.value), ("at most %g"):format(c.high) end,
  oxygen = function(c) return "Oxygen at the outlet, mg/L", about(c.value), ("at least %g"):format(c.low) end,
  bod = function(c) return "BOD on the plan, g/m2/d", about(c.value), ("at most %g (memory)"):format(c.high) end,
  solids = function(c) return "Solids on the plan, g/m2/d", about(c.value), ("at most %g (memory)"):format(c.high) end,
  section = function(c) return "BOD on the section, g/m2/d", about(c.value), ("at most %g"):format(c.high) end,
  head = function(c, _, view)
    return "Head when clogged, " .. view:unit("head"), about(view:value("head", c.value)),
      "at most " .. about(view:value("head", c.high))
  end,
  lip = function(c, _, view)
    return "Water over the lip, clogged, " .. view:unit("head"), about(view:value("head", c.value)),
      "stone over it " .. view:cell("head", c.high)
  end,
  room = function(_, job, view)
    local function sides(a, b) return view:cell("length", a) .. " x " .. view:cell("length", b) end
    return "Plan, " .. view:unit("length"), sides(job.length, job.width), sides(job.fit.width, job.fit.length) .. " fits"
  end,
}

local DOUBT = { area = "short", loading = "outside", oxygen = "low", breath = "short", bod = "over", solids = "over" }

-- Whether it holds; a guess never reads as a plain yes.
local function verdict(c)
  if c.verdict == "forbids" then return c.guess and "NO, by a guess" or "NO" end
  if c.guess then return "a guess" end
  return c.verdict == "holds" and "yes" or DOUBT[c.id]
end

local function guessed(job)
  for _, c in ipairs(job.checks) do
    if c.guess then return true end
  end
end

local HEADS = { "Check", "this bed", "against", "holds" }

local function row(c, job, view)
  local name, value, against = SAY[c.id](c, job, view)
  return { name, value, against, verdict(c) }
end

local function put_guess(page, job)
  local r = job.sized
  if guessed(job) then
    page:paragraph("A guess: the removal rate %s, so that the figure is no promise, and no check passes by it.", r.extrapolation and
      ("was measured at %s m/d, and this bed is %s"):format(report.span(job.k_low, job.k_high), report.times(r.extrapolation))
      or "says nothing about the loadings at which it was measured")
  end
end

function checks.every(page, job, view)
  local rows = {}
  for _, c in ipairs(job.checks) do
    if SAY[c.id] then rows[#rows + 1] = row(c, job, view) end
  end
  page:heading("Every check")
  page:table(HEADS, rows)
  put_guess(page, job)
  page:paragraph("Surface loading stands beside %s: %s, %s m/d.", job.bed.kind and "the kind wished" or
    "the nearest that is known of ponds' beds", job.loading_of, report.span(job.loading_low, job.loading_high))
end

local LISTED, NEAREST = 8, 5          -- rows of one screen, and of them checks that hold
local RANK = { forbids = -2, doubt = -1 }

-- The worst of those that do not hold, then those with the least margin.
function checks.nearest(page, job, view)
  local list, rows, holding, held = {}, {}, 0, 0
  for i, c in ipairs(job.checks) do
    if SAY[c.id] then
      list[#list + 1] = { c, RANK[c.verdict] or c.margin, i }
      holding = holding + (c.verdict == "holds" and 1 or 0)
    end
  end
  table.sort(list, function(a, b)
    if a[2] ~= b[2] then return a[2] < b[2] end
    return a[3] < b[3]
  end)
  for _, entry in ipairs(list) do
    held = held + (entry[1].verdict == "holds" and 1 or 0)
    if held <= NEAREST and #rows < LISTED then rows[#rows + 1] = row(entry[1], job, view) end
  end
  page:heading("The checks nearest to their limits")
  page:table(HEADS, rows)
  page:paragraph("%d of %d checks %s; --full lists all.", holding, #list, holding == 1 and "holds" or "hold")
  put_guess(page, job)
end

function checks.yard(page, job, view)
  local fit = job.fit
  if not fit then return end
  page:heading("In the yard")
  lines(page, {
    ("Of %s the setbacks and footings leave room for %s by %s (%s) at most, turned %.0f degrees from the yard's first side.")
      :format(view:show("area", fit.yard_area), view:show("length", fit.length), view:show("length", fit.width),
        view:show("area", fit.area), fit.angle),
    "A hole keeps outside the line that falls at 45 degrees from a wall's footing. Whether a wall, a footing or a slope stands is for a licensed engineer and local codes.",
  })
end

return checks

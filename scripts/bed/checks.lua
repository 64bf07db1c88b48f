-- SPDX-License-Identifier: MIT
-- What the bed does: ammonia, water through the stone, every check, the yard.
local plan = require "bed.plan"
local report = require "bed.report"
local text = require "common.text"

local checks = {}
local about, brief, lines, minutes = report.about, report.brief, report.lines, report.minutes

-- ---- treatment ---------------------------------------------------------------------------

local function rate_rows(job)
  local list, t = {}, job.d.treatment or {}
  local function add(label, rate, basis, low, high)
    local r = plan.with_rate(job, rate)
    list[#list + 1] = { label, text.number(rate.k_m_yr or r.k_m_d * 365), about(r.pond),
      report.against(r.extrapolation, low, high), brief(basis) }
  end
  if t.k or t.rate then
    add("* described", { rate = t.rate, k_m_yr = t.k, theta = t.theta, tanks = t.tanks, k_low = t.k_low,
      k_high = t.k_high }, t.rate or "", plan.measured_at(job))
  end
  for _, name in ipairs { "hf-ammonia-2009", "beijing-ammonia-2016" } do
    for _, rate in ipairs(tarn.bed.rates()) do
      if rate.name == name then
        add(name, { rate = name, k_m_yr = rate.k_m_yr, theta = rate.theta, tanks = rate.tanks,
          k_low = rate.k_low, k_high = rate.k_high }, rate.evidence, rate.k_low, rate.k_high)
      end
    end
  end
  for _, trial in ipairs(tarn.bed.trials()) do
    if trial.parameter == "ammonia" then
      add((trial.system:gsub(",? ?fish pond in recirculation", ", fish pond"):gsub("horizontal root%-zone bed, ", "")
        :gsub("vertical%-flow wetland, ", "")),
        { k_m_yr = trial.k_m_yr, theta = 1, tanks = math.huge, k_low = trial.loading, k_high = trial.loading },
        trial.evidence, trial.loading, trial.loading)
    end
  end
  return list
end

function checks.treatment(page, job, view)
  local w, t = job.waste, job.d.treatment or {}
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
      :format(about(math.log(2) / r.pond_per_day), about(3 / r.pond_per_day))
    if r.extrapolation and r.extrapolation < 1 then
      say[#say + 1] = "This bed is slower than those of the rate. Rates grow with the loading: here it errs to the unsafe side."
    end
    if job.water.ph then
      local share = tarn.bed.unionised(job.water.ph, job.temp)
      say[#say + 1] = ("At pH %g and %s %.2g %% of it is un-ionised, the toxic part: %s mg/L."):format(job.water.ph,
        view:temp(job.temp), 100 * share, ("%.2g"):format(r.pond * share))
    end
  end
  say[#say + 1] = ("Nitrate is what nitrification leaves: up to %.2g mg/L N more each day, and phosphorus %.2g. Plants that are harvested, sludge that is taken out and changes of water remove them.")
    :format(w.ammonia_g / job.volume, w.phosphorus_g / job.volume)
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

local HEAD_FROM = { described = "bed.head", solved = "worked out from the bed's fall" }

function checks.hydraulics(page, job, view)
  local r = job.sized
  page:heading("Water through the stone")
  if job.stack then put_layers(page, job, view) end
  local say = {
    ("Surface loading: %.3g m/d = %.3g m/h = %.3g gpm/ft2 = %.3g gph/ft2."):format(r.loading,
      r.loading / tarn.units.m_per_hour, r.loading / tarn.units.gpm_per_ft2, r.loading / tarn.units.gph_per_ft2),
    ("Clogged is %g times the clean loss, a factor to be chosen; US EPA (2000, from memory) designs with 10 to 100.")
      :format(plan.field(job, "bed", "clogging")),
    ("The voids hold %s, so water takes %s at the most; tracers showed 0.68 to 0.87 of that.")
      :format(view:show("volume", r.water), minutes(r.residence)),
  }
  if r.flow_regime then
    say[#say + 1] = ("Flow in the largest stone: %s; Ergun's law is used."):format(r.flow_regime)
  end
  if r.head_needed then
    local spare = job.bed.spare_head or job.bed.drop
    say[#say + 1] = ("Head needed when clogged, with the water over the lip: %s; to spare: %s."):format(
      view:show("head", r.head_needed), spare and view:show("head", spare)
        .. (job.bed.spare_head and "" or " (the drop to the pond)") or "not described")
  end
  if r.rise then
    say[#say + 1] = ("Water must run sideways to the lip: it would stand %s higher at the far side%s, under %s of dry stone.")
      :format(view:show("head", r.rise), job.head and (", %s with the %s over the lip (%s)"):format(
        view:show("head", r.rise + job.head), view:show("head", job.head), HEAD_FROM[job.head_from]) or "",
        view:show("layer", job.cover))
  end
  lines(page, say)
end

-- ---- checks -----------------------------------------------------------------------------------

-- What is doubtful but does not forbid a bed.
local SOFT = { too_small = "short", loading_outside = "outside", low_oxygen = "low", area_overload = "over" }

function checks.every(page, job, view)
  local r, rows = job.sized, {}
  local t = job.d.treatment or {}
  local function add(name, value, against, flag)
    rows[#rows + 1] = { name, value, against, r.flags[flag] and (SOFT[flag] or "NO") or "yes" }
  end
  local low, high, what = plan.nearest_loading(job)
  add("Surface loading, m/d", about(r.loading), report.against(r.loading_factor, low, high), "loading_outside")
  if r.governs then add("Area, " .. view:unit("area"), view:cell("area", r.area), "at least " ..
    view:cell("area", r.needed), "too_small") end
  if r.pond and t.ammonia then
    add("Ammonia N in the pond, mg/L", about(r.pond), ("at most %g"):format(t.ammonia), "target_missed")
  end
  if r.oxygen_out then
    add("Oxygen at the outlet, mg/L", about(r.oxygen_out), "at least 2", r.flags.anaerobic and "anaerobic" or
      "low_oxygen")
  end
  if r.bod_g_m2 then
    add("BOD on the plan, g/m2/d", about(r.bod_g_m2), "at most 6 (memory)",
      r.bod_g_m2 > 6 and "area_overload" or "")
    add("Solids on the plan, g/m2/d", about(r.solids_g_m2), "at most 20 (memory)",
      r.solids_g_m2 > 20 and "area_overload" or "")
  end
  if r.section_bod_g_m2 then
    add("BOD on the section, g/m2/d", about(r.section_bod_g_m2), "at most 250", "section_overload")
  end
  local spare = job.bed.spare_head or job.bed.drop
  if r.head_needed and spare then
    add("Head when clogged, " .. view:unit("head"), about(view:value("head", r.head_needed)),
      "at most " .. about(view:value("head", spare)), "head_short")
  end
  if r.rise then
    add("Water over the lip, " .. view:unit("head"), about(view:value("head", r.rise + (job.head or 0))),
      "stone over it " .. view:cell("head", job.cover), "water_on_gravel")
  end
  if job.fit then
    add("Plan, " .. view:unit("length"), view:cell("length", job.length) .. " x " .. view:cell("length", job.width),
      view:cell("length", job.fit.width) .. " x " .. view:cell("length", job.fit.length) .. " fits", "does_not_fit")
  end
  page:heading("Every check")
  page:table({ "Check", "this bed", "against", "holds" }, rows)
  page:paragraph("Surface loading stands beside %s: %s, %s m/d.", job.bed.regime and "the regime wished" or
    "the nearest that is known of ponds' beds", what, report.span(low, high))
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

-- SPDX-License-Identifier: MIT
-- Sheet: the year's table, when to worry, top-up water, winter, calendar, assumptions, cautions.
local ranges = require "common.ranges"
local text = require "common.text"

local care = {}

local MM = tarn.units.mm

-- A week of each month that the forecast has; without a range, why there is none.  bare: the table alone
function care.year(page, job, view, bare)
  if not job.forecast then
    page:heading("A normal week, month by month")
    page:paragraph(("There is no range: %s."):format(job.no_range))
    return
  end
  local rows = {}
  for i, m in ipairs(job.forecast.months) do
    local drop = m.drop_mm
    rows[i] = { text.months[m.month], view:cell("depth", drop.p10 * MM), view:cell("depth", drop.p50 * MM),
      view:cell("depth", drop.p90 * MM), view:cell("depth", m.look_mm * MM), view:cell("depth", m.act_mm * MM),
      view:cell("volume", m.week.mean), view:cell("volume", m.week.p90) }
  end
  local d, v = "\n" .. view:unit("depth"), "\n" .. view:unit("volume")
  page:heading("A normal week, month by month")
  page:table({ "\n\nMonth", "Drop\nP10" .. d, "\nP50" .. d, "\nP90" .. d, "Look\nabove" .. d, "Act\nabove" .. d,
    "Top-up\nmean" .. v, "\nP90" .. v }, rows)
  if bare then return end
  page:paragraph("Drop: by the losses alone, in a week without rain, valve shut, pump on. Top-up: of single weeks, as the valve's meter counts it, net of rain. P10, P50, P90: in one of ten, five of ten, nine of ten it is less, over the years and over what is not known of the method, the station and the place.")
  page:paragraph(ranges.condition(job.forecast))
end

-- How the table is read, in a sentence.
function care.reading(job, view)
  if not job.forecast then return nil end
  return ("Drop: in a week without rain, valve shut, pump on; P90: in nine of ten it is less. Above \"look\" (P90 + %s, two readings of a ruler) look for wind, splash, a low edge; above \"act\" shut the valve, watch the intake, test with a bucket. Weather alone never says \"leak\".")
    :format(view:show("depth", job.forecast.ruler_mm * MM))
end

function care.worry(page, job, view)
  local lines = {
    "Test in pairs, 48 h each, no rain, valve shut: ruler in the pond, and a bucket of its water on a step beside; pump on, then off (fish need air).",
    "Both fall alike: weather. Pond faster, pump on only: falls, stream, bed, pipes. Pump off too: the pond; where it settles marks the height. Weather alone never says \"leak\".",
  }
  if job.forecast then
    table.insert(lines, 1, ("Look when a week's drop is above \"look\" (P90 + %s, what two readings of a ruler cannot tell) or the meter above the month's P90: wind, splash or a low edge may do it.")
      :format(view:show("depth", job.forecast.ruler_mm * MM)))
    table.insert(lines, 2, "Act above \"act\" (twice the P90, and a ruler's error; our rule): shut the fill valve, watch the intake minimum, test at once.")
  end
  page:heading("Is it a leak?")
  page:list(lines)
end

-- The largest P90 of a week's top-up, m3; nil without a range.
local function most_week(forecast)
  local most
  for _, m in ipairs(forecast and forecast.months or {}) do
    if m.week.p90 and m.week.p90 > (most or 0) then most = m.week.p90 end
  end
  return most
end

function care.topup(page, job, view)
  local lines, d = {}, job.description
  local function add(...) lines[#lines + 1] = string.format(...) end
  page:heading("Top-up water")
  local most = most_week(job.forecast)
  if most then
    local share = tarn.flow.topup { volume = math.min(most, job.water), pond = job.water }
    add("In the month that takes most, one week in ten takes more than %s, %.1f %% of the pond's water; small daily additions are kinder to fish than a flood.",
      view:show("volume", most), 100 * share.share)
  end
  if job.facts.trigger and d.supply and d.supply.rate then
    local one = job.facts.fill
    if one > 0 then
      add("One filling, normal low to normal high: %s, %.0f min at %s with the valve wide open.", view:show("volume", one),
        one / d.supply.rate / 60, view:show("small_flow", d.supply.rate))
    end
  end
  add("An automatic valve hides a leak: read its meter weekly against the table; shut it for tests and in winter.")
  add("Chlorine leaves in a day or two; chloramine does not, and leaves ammonia when neutralised. Ask the supplier; dose by the label.")
  page:list(lines)
end

function care.winter(page, job, view)
  local f, lines = job.frost, {}
  local function add(...) lines[#lines + 1] = string.format(...) end
  page:heading("Winter")
  if not f then
    page:paragraph("This weather has no lowest temperatures: no frost dates.")
    return
  end
  if not f.first then
    add("No frost in these years.")
  else
    add("Frost came from %s (earliest) to %s (latest); %.1f days a year went to %s or below, where falls can freeze faster than water is added (common practice, no source): stop the pump before such days, drain the pipes, shut the fill valve.",
      f.first, f.last, f.hard, view:temp(f.hard_frost))
    if f.degree_days and f.degree_days > 0 then
      local ice = function(factor)
        return tarn.flow.ice { degree_days = f.degree_days, factor = factor, area = job.facts.full_area }
      end
      local least, most = ice(f.ice_least), ice(f.ice_most)
      add("Ice of the coldest spell, very roughly: %s thick, %s of water held in it.",
        view:range("depth", least.thickness, most.thickness), view:range("volume", least.water, most.water))
    end
    add("Restart takes %s from the pond: fill to normal high first. No blows on ice over fish; keep a hole open for gas.",
      view:show("volume", job.facts.transit))
  end
  page:list(lines)
end

local NORTH = { spring = "Mar-Apr", summer = "Jun-Aug", fall = "Oct-Nov", winter = "Dec-Feb" }
local SOUTH = { spring = "Sep-Oct", summer = "Dec-Feb", fall = "Apr-May", winter = "Jun-Aug" }

function care.calendar(page, job)
  local when = job.south and SOUTH or NORTH
  local rows = {
    { "Every week", "Level, meter and rain into the log; empty the intake's basket." },
    { "Every month", "Overflow and screens clear; liner edge above the water all round; ground-fault device tested." },
    { when.spring, "Flush the bed from its inlet; cut dead stems; thin and divide; pump off and on once: rise and drop as above." },
    { when.summer, "Log twice a week in dry spells; shade and air for fish on hot nights." },
    { when.fall, "Net against leaves; stop feeding as the water cools; meter read and compared with the year's table." },
    { when.winter, job.frost and job.frost.first and "Fill valve shut, pipes drained before hard frost; a hole in the ice."
      or "Fill valve by the meter; pump may run." },
  }
  page:heading("Calendar")
  for i, row in ipairs(rows) do rows[i] = row[1] .. ": " .. row[2] end
  if job.description.plants then rows[#rows + 1] = "Plants: " .. job.description.plants end
  page:list(rows)
end

function care.assumptions(page, job, view)
  local t, d, lines = job.totals, job.description, {}
  local function add(...) lines[#lines + 1] = string.format(...) end
  local e = job.pond:place()
  add("Weather: %s, %s (%d days)%s. Evaporation: %s.", job.weather_path, job.span, t.days,
    job.season.few_days and "; under three years, so P10 and P90 are rough" or "", job.ledger:report().title)
  add("Wind at the pond %g, sun %g of the station's. Splash %s a day%s. Seepage %s.", e.shelter, e.shade,
     view:show("volume", (d.splash or 0) * 86400), d.splash and "" or " (none described; measure it)",
    d.seepage and "as described" or "none")
  if job.takeoff then
    add("Water at the lip: %s of basin%s, %s%s.", view:show("volume", job.facts.full_volume),
      job.pond:basin():scale() ~= 1 and " by the meter" or "",
      (job.takeoff.displaced_by == "layers" and "less %s of stone (the layers described, all under water)"
        or "nothing deducted: build.wall_stone and floor_gravel are not described (the rule for ordering would take %s)")
        :format(view:show("volume", job.takeoff.displaced)),
      job.pond:basin():scale() ~= 1 and "" or "; a meter at the first fill is better than any tape")
  end
  if job.works.solved then
    add("Pipes at %s, clean; fittings by a table whose sources differ by half; a pail and a watch are better.%s",
      view:temp(15), job.works.drain_from == "solved" and " They are taken to drain over their whole length." or "")
  end
  if job.works.falls[1] then
    add("Lips: rough stone 1.6 (common practice, no source); gaps between stones take water.")
  end
  add("The ledger closes to %.0e of the water turned over.", t.residual)
  page:heading("Assumptions")
  page:list(lines)
end

function care.cautions(page)
  page:heading("Cautions")
  page:list {
    "Deep water: children drown in inches. Barriers, depths and setbacks are local law.",
    "Digging: utilities marked first; trenches cave in (US rules: protection from 5 ft, sooner in bad soil); spoil back from the edge; stay out of the 45-degree line below footings.",
    "Walls and boulders: stacked stone and wet banks are walls; many codes want an engineer and a permit from 3 or 4 ft. This sheet designs no structure.",
    "Electricity: a licensed electrician, ground-fault protection, local code. A trip leaves fish without air.",
    "Backflow: an air gap of twice the supply's opening, never under 1 inch, or an approved preventer. Chemicals: by the label, never mixed.",
    "Local codes and licensed practice rule over anything printed here.",
  }
end

return care

-- SPDX-License-Identifier: MIT
-- What the what-if report says, block by block.
local defined = require "common.defined"
local money = require "common.money"
local ranges = require "common.ranges"
local text = require "common.text"

local sections = {}

local function paid(job, volume) return money.behind(job.description, volume) end

local function percent(share) return share and ("%.0f %%"):format(100 * share) or "-" end
local function maybe(x) return x or nil end

function sections.change(x, base)
  if not (x and base and base > 0) then return "-" end
  return ("%+.0f %%"):format(100 * (x / base - 1))
end

-- Unit of the field that an input names, "bed.area"; of the ledger's own, too.
local function unit_of(field) return field == "start_level" and "m" or tarn.study.unit(field) end

local function label(input, view)
  local name = input.name or input.field
  if input.times then return ("%s x %.4g to %.4g"):format(name, input.times[1], input.times[2]) end
  return name .. " " .. view:described(unit_of(input.field), input.low, input.high)
end

-- ---- the answer ----

-- bare: without that under which the range holds
function sections.answer(page, job, view, bare)
  local base, most, far = job.scenarios[1], nil, 0
  local function typical(s) return s.year_p50 or s.topup end
  page:paragraph(base.year_p50 and ("As it is, the pond takes %s of top-up in a middle year%s, and %s in a dry one%s."):format(view:show("volume", base.year_p50),
    paid(job, base.year_p50), view:show("volume", base.year_p90), paid(job, base.year_p90)) or
    ("As it is, the pond takes %s of top-up over this weather%s."):format(view:show("volume", base.topup), paid(job, base.topup)))
  local f = job.range
  if f and ranges.some(f) and f.year.count > 0 then
    page:paragraph("With the weather as it was read and the doubt about the place, a year takes %s 8 times in 10. That doubt moves all scenarios alike: their changes are surer than their amounts.",
      ranges.span(f.year, view))
    if not bare then page:paragraph(ranges.condition(f)) end
  elseif job.no_range then
    page:paragraph("There is no range: %s.", job.no_range)
  end
  for i, s in ipairs(job.scenarios) do
    local by = math.abs(typical(s) - typical(base))
    if i > 1 and typical(s) > 0 and by > far then most, far = s, by end
  end
  if most then
    page:paragraph("Of the scenarios \"%s\" changes that most: %s (%s).", most.name, view:show("volume", typical(most)),
      sections.change(typical(most), typical(base)))
  end
  local swing = job.swings and job.swings[1]
  if swing then
    page:paragraph("Of the inputs %s matters most: %s a year over its range.", label(swing.input, view),
      view:range("volume", math.min(swing.low, swing.high) / job.years, math.max(swing.low, swing.high) / job.years))
  end
end

-- Warmer scenarios on a method that says little of them: their names, each with its method.
function sections.simple(job)
  local simple = {}
  for _, s in ipairs(job.scenarios) do if s.simple then simple[#simple + 1] = s.name .. " (" .. s.method .. ")" end end
  return simple
end

-- ---- scenarios --------------------------------------------------------------------

function sections.scenarios(page, job, view)
  local volume, base, rows = view:unit("volume"), job.scenarios[1], {}
  local typical = base.year_p50 and "year_p50" or "topup"
  for i, s in ipairs(job.scenarios) do
    rows[i] = { s.name, view:cell("volume", s[typical]), sections.change(s[typical], base[typical]),
      view:cell("volume", maybe(s.year_p90)), view:cell("volume", maybe(s.week_p90) or s.week_max),
      view:cell("length", s.lowest_level), ("%d"):format(s.under_intake), ("%d"):format(s.restricted) }
  end
  page:heading "What if"
  page:paragraph(base.year_p50 and
    "Top-up of a middle year and of a dry one (more in 1 year of 10), the largest week of a year (likewise), and over the whole weather the lowest level, the days that end under the intake and those on which top-up was refused. " .. defined.week or
    "The weather holds no whole year: top-up is that of all its days, the week the largest of them. " .. defined.week)
  page:table({ "scenario", "middle year\n" .. volume, "change", "dry year\n" .. volume, "largest week\n" .. volume,
    "lowest\n" .. view:unit("length"), "days under\nintake", "days\nrefused" }, rows)
  local simple = sections.simple(job)
  if #simple > 0 then
    page:paragraph("Care: warmer scenarios that rest on a method without sun and humidity, or on given evaporation, say little: such formulas can misstate the change by more than its size. It concerns: " .. table.concat(simple, "; ") .. ". Use weather with radiation (or sunshine) and humidity.")
  end
end

-- ---- which input matters ------------------------------------------------------------

function sections.swings(page, job, view)
  if not job.swings then return end
  local rows, bars, years = {}, {}, job.years
  for i, s in ipairs(job.swings) do
    local name = label(s.input, view)
    rows[i] = { name, view:cell("volume", s.low / years), view:cell("volume", s.high / years),
      view:cell("volume", s.swing / years) }
    bars[i] = { name, s.swing / years, view:show("volume", s.swing / years) }
  end
  page:heading "Which input matters: one at a time"
  page:paragraph(("Top-up a year (mean) with one input at its low and at its high end, all others as they are: %s."):format(
    view:show("volume", job.swings[1].base / years)))
  page:table({ "input", "low\n" .. view:unit("volume"), "high\n" .. view:unit("volume"),
    "swing\n" .. view:unit("volume") }, rows)
  page:bars(bars, nil, true)
  local idle = {}
  for _, s in ipairs(job.swings) do
    if s.low == s.base and s.high == s.base then idle[#idle + 1] = s.input.name or s.input.field end
  end
  if #idle > 0 then
    page:paragraph("These change nothing: " .. table.concat(idle, ", ") .. ". A field that is 0, or not there, stays so however often it is taken; give low and high instead of times, or take the input out.")
  end
end

function sections.sensitivity(page, job, view)
  if not job.sensitivity then return end
  local rows = {}
  -- "-": no share can be told, as of results that hardly differ
  local function range(x, low, high) return x and low and high and ("%.2f (%.2f to %.2f)"):format(x, low, high) or "-" end
  for i, s in ipairs(job.sensitivity) do
    rows[i] = { label(s.input, view), range(s.first, s.first_low, s.first_high), range(s.total, s.total_low, s.total_high) }
  end
  page:heading "Which input matters: all at once"
  page:paragraph(("Share of the top-up's variance that an input explains alone, and with all that it takes part in (Sobol' indices, %d samples, 95 %% intervals), with every input anywhere in its range."):format(
    job.file.sensitivity))
  page:table({ "input", "alone", "in all" }, rows)
end

function sections.ensemble(page, job, view)
  if not job.rows then return end
  local rows = {}
  for _, q in ipairs { { "year_p50", "top-up of a middle year" }, { "year_p90", "top-up of a dry year" },
    { "week_p90", "largest week of a year, P90" }, { "overflow", "overflow, whole weather" },
    { "lowest_level", "lowest level", "length" }, { "under_intake", "days under the intake", "days" },
    { "tank_share", "share of the need that the rain tank gives", "share" } } do
    local spread = tarn.spread(job.rows.values[q[1]])
    if spread.count > 0 then
      local row = { q[2] }
      for _, x in ipairs { spread.p10, spread.p50, spread.p90 } do
        row[#row + 1] = q[3] == "days" and ("%.0f"):format(x) or q[3] == "share" and percent(x) or
          view:show(q[3] or "volume", x)
      end
      rows[#rows + 1] = row
    end
  end
  page:heading "All inputs uncertain"
  page:paragraph(("%d of %d rows%s: every input by chance within its range."):format(job.rows.done, job.total,
    job.rows.bad > 0 and (", " .. job.rows.bad .. " of them no pond that could stand") or ""))
  page:table({ "figure", "P10", "P50", "P90" }, rows)
end

-- ---- tank, budget -----------------------------------------------------------------------

-- Days a year: a few in the whole weather are not none.
local function yearly(days, years)
  if days > 0 and days / years < 0.5 then return "under 1" end
  return ("%.0f"):format(days / years)
end

function sections.tank_answer(job, view)
  local answer, target = job.tank.answer, percent(job.file.tank.target)
  if not answer then return "No top-up is needed over this weather: a tank has no share." end
  if answer.word == "none" then
    return ("No tank meets %s, however large: one that never spills meets %s. The roof or the rain is the limit.")
      :format(target, percent(answer.most))
  end
  local size = view:show("volume", answer.capacity)
  if answer.word == "listed" then return ("A tank of %s meets %s of the need."):format(size, target) end
  return ("None of these tanks meets %s: the list ends too early. A tank of about %s does."):format(target, size)
end

function sections.tank(page, job, view)
  if not job.tank then return end
  local rows, bars, t, years, intake = {}, {}, job.tank, job.years, job.pond:facts().intake
  for i, size in ipairs(t.sizes) do
    local share = t.rows.tank_share[i]
    rows[i] = { view:show("volume", size), percent(share), view:cell("volume", t.rows.topup[i] / years),
      view:cell("volume", t.rows.tank_spill[i] / years), yearly(t.rows.tank_empty[i] or 0, years),
      yearly(t.rows.restricted[i], years), intake and yearly(t.rows.under_intake[i], years) or "-" }
    bars[i] = { view:show("volume", size), share or 0, percent(share) }
  end
  page:heading "Rain tank"
  page:paragraph("The need is what this pond takes where nothing restricts it: the supply open every day and as fast as wanted%s. What is refused is part of it. Days of a mean year on which a tank ends empty, top-up is refused, and the level ends under the intake:",
    t.rows.need[1] and (", %s a year"):format(view:show("volume", t.rows.need[1] / years)) or "")
  page:table({ "tank", "share of\nneed met", "mains\n" .. view:unit("volume") .. "/yr",
    "spilled\n" .. view:unit("volume") .. "/yr", "empty\nd/yr", "refused\nd/yr", "under intake\nd/yr" }, rows)
  page:bars(bars)
  if math.max(table.unpack(t.rows.restricted)) > 0 then
    page:paragraph "A share counts the water that came, not when it came. Where top-up is refused, the pond waits for rain below its trigger: the last column shows that."
  end
  if job.file.tank.target then page:paragraph(sections.tank_answer(job, view)) end
  page:paragraph "Roof water brings what the roof holds; whether it may go to fish is for you to judge."
end

function sections.budget(page, job, view)
  if not job.budget then return end
  local b, season, peak = job.budget, job.season, ""
  for _, m in ipairs(season.months) do
    if m.month == season.peak_month then
      peak = ("; the greatest month is %s with %s"):format(text.months[m.month], view:show("volume", m.topup))
    end
  end
  page:heading "Water budget for review"
  page:paragraph(("By the ordinance's arithmetic (reference ET %.1f x %.4g x area %.0f; adjustment %.2f, plant factor %.2f, efficiency %.2f, constants as given): allowance %s, use %s a year, in its own units. It counts no rain, no splash, no seepage."):format(
    b.reference, b.unit, b.area, b.adjustment, b.plant_factor, b.efficiency, text.number(b.allowance, 0),
    text.number(b.use, 0)))
  page:paragraph("By the ledger, for comparison and not to be mixed with it: %s of top-up in a mean year%s.",
    view:show("volume", season.a_year), peak)
end

-- ---- what it rests on ---------------------------------------------------------------------

function sections.notes(page, job)
  local report, list = job.forcing:report(), {}
  list[1] = ("Evaporation: %s, %d days."):format(report.title, report.days)
  for _, origin in ipairs(report.origins) do list[#list + 1] = ("%s (%d days)"):format(origin.title, origin.days) end
  if job.file.generate then
    list[#list + 1] = ("The weather is generated: %d years by chance from the file's statistics. Its years differ less than nature's, so that long droughts are understated."):format(job.file.generate.years)
  end
  if tarn.few_years(job.years) then list[#list + 1] = ("%.0f years of weather are few for a 1-in-10 year; take ten or more, or generate them."):format(job.years) end
  if job.control then list[#list + 1] = ("A control of your own ran before each day: %.0f ns a day."):format(job.control_ns) end
  list[#list + 1] = "Changes of climate are the user's; no forecast is made here. Rules on water use, and what an ordinance asks, differ from place to place: look yours up."
  page:heading "What this rests on"
  page:list(list)
end

return sections

-- SPDX-License-Identifier: MIT
-- The water of the top-up report: the answer, weeks, months, years, methods.
local defined = require "common.defined"
local inputs = require "common.inputs"
local losses = require "common.losses"
local money = require "common.money"
local ranges = require "common.ranges"
local text = require "common.text"

local sections = {}

-- Rows that cover a whole week, month or year.
local function whole(rows)
  local out = {}
  for _, row in ipairs(rows) do
    if row.complete then out[#out + 1] = row end
  end
  return out
end

local function paid_for(job, volume) return money.of(job.pond:description(), volume) end

-- The ledger's own figures: the table and the pictures below are of it.
local function put_ledger(page, job, view)
  local t, season, paid = job.totals, job.season, paid_for(job, job.totals.topup)
  page:paragraph(("From %s (%s) the ledger has %s of top-up water, %s a week on average%s.")
    :format(inputs.span(job.weather, t.first, t.last), t.days == 1 and "1 day" or t.days .. " days", view:show("volume", t.topup),
            view:show("volume", season.a_week), paid and ", " .. paid .. " in all" or ""))
  local fill = job.facts.fill
  if fill > 0 then
    page:paragraph(("One filling takes %s (from trigger to target), so that weeks come in steps of it; months are smoother.")
      :format(view:show("volume", fill)))
  end
end

-- Without a range the years of the weather are all that can be told.
local function put_years(page, job, view)
  local season = job.season
  if season.has_dry_year then
    page:paragraph(("Of the %d whole years the middle one takes %s, a dry one (P90) %s.")
      :format(season.whole_years, view:show("volume", season.year_topup.p50), view:show("volume", season.year_topup.p90)))
  end
end

-- A usual year and week, their ranges, and what these rest on.
function sections.glance(page, job, view)
  local f = job.forecast
  if f and ranges.some(f) then
    for _, sentence in ipairs(ranges.usual(f, view)) do page:paragraph(sentence) end
    ranges.table(page, f, view)
    page:paragraph(ranges.condition(f))
  elseif not f then
    page:paragraph(("There is no range: %s."):format(job.no_range))
    put_years(page, job, view)
  end
  put_ledger(page, job, view)
end

-- The same, with weather and place told apart, and what to measure.
function sections.answer(page, job, view)
  local f = job.forecast
  sections.glance(page, job, view)
  if not (f and ranges.some(f)) then return end
  page:paragraph(ranges.apart(f, view))
  local best = ranges.best(f)
  if best then page:paragraph(best) end
end

local function balance_heads(first, view, priced)
  local v = "\n" .. view:unit("volume")
  local heads = { first, "Rain" .. v, "Evapor-\nation" .. v, "Other\nlosses" .. v, "Over-\nflow" .. v,
    "Top-up" .. v, "Drop at\nthe ruler\n" .. view:unit("depth") }
  for i = 2, 6 do
    if not heads[i]:find("\n.*\n") then heads[i] = "\n" .. heads[i] end
  end
  heads[1] = "\n\n" .. first
  if priced then heads[#heads + 1] = "\nCost\n" .. priced end
  return heads
end

local function balance_row(label, row, job, view, share)
  share = share or 1
  local each = money.price(job.pond:description())
  return {
    label,
    view:cell("volume", (row.rain + row.runoff) * share),
    view:cell("volume", row.evaporation * share),
    view:cell("volume", losses.beside(row) * share),
    view:cell("volume", row.overflow * share),
    view:cell("volume", row.topup * share),
    view:cell("depth", row.drop_mm * share / 1000),
    each and text.number(row.topup * each * share, 2) or nil,
  }
end

function sections.weeks(page, job, view)
  local weeks = job.weeks
  page:heading("Week by week")
  local rows = {}
  for i, week in ipairs(weeks) do
    rows[i] = balance_row(("%d-W%02d %s"):format(week.week_year, week.week, week.complete and "" or "(part)"),
      week, job, view)
  end
  local _, currency = money.price(job.pond:description())
  page:table(balance_heads("Week", view, currency), rows)
  page:paragraph("Drop at the ruler: how far the losses alone would lower the level. " .. defined.week)
end

-- A figure for each of the 52 weeks of the year, over the years: ranges where there are some.
function sections.typical_weeks(page, job, view)
  page:heading("The weeks of a year, over all years")
  local rows, bars = {}, {}
  for i, week in ipairs(job.season.weeks) do
    local drop, topup = week.drop_mm, job.forecast and job.forecast.weeks[i].topup or week.topup
    rows[i] = {
      ("W%02d, about %s"):format(week.week, week.about), tostring(week.topup.count),
      view:cell("volume", topup.p10), view:cell("volume", topup.p50), view:cell("volume", topup.p90),
      view:cell("volume", week.topup.mean), view:cell("depth", drop.p50 / 1000), view:cell("depth", drop.p90 / 1000),
    }
    bars[i] = { ("W%02d"):format(week.week), week.topup.mean, view:show("volume", week.topup.mean) }
  end
  local v, d = "\n" .. view:unit("volume"), "\n" .. view:unit("depth")
  page:table({ "\nWeek", "\nYears", "Top-up\nP10" .. v, "\nP50" .. v, "\nP90" .. v, "\nmean" .. v,
    "Drop\nP50" .. d, "\nP90" .. d }, rows)
  page:paragraph("P10, P50, P90: in one of ten, five of ten, nine of ten it is less; of top-up over the years and the place's doubt%s, of the drop and the mean over the ledger's years. %s The date is that about which it begins. --all-weeks lists every week.",
    job.forecast and "" or " (which has no range here)", defined.week)
  page:bars(bars, "Mean top-up of each week", true)
end

function sections.week_bars(page, job, view)
  local bars = {}
  for i, week in ipairs(job.weeks) do
    bars[i] = { ("%d-W%02d"):format(week.week_year, week.week), week.topup, view:show("volume", week.topup) }
  end
  page:bars(bars, "Top-up by week", true)
end

function sections.months(page, job, view)
  local _, currency = money.price(job.pond:description())
  local rows, many = {}, #job.months > 14
  page:heading(many and "Month by month, mean of the years" or "Month by month")
  if not many then
    for i, m in ipairs(job.months) do
      rows[i] = balance_row(("%s %d%s"):format(text.months[m.month], m.year, m.complete and "" or " (part)"), m, job, view)
    end
  else
    for _, m in ipairs(job.season.months) do
      if m.whole > 0 then rows[#rows + 1] = balance_row(text.months[m.month], m, job, view) end
    end
  end
  rows[#rows + 1] = "-"
  rows[#rows + 1] = many and balance_row("A year", job.totals, job, view, 1 / job.season.years)
    or balance_row("In all", job.totals, job, view)
  page:table(balance_heads("Month", view, currency), rows)
end

function sections.years(page, job, view)
  local years = whole(job.years)
  if #years < 2 then return end
  page:heading("Year by year")
  local _, currency = money.price(job.pond:description())
  local rows = {}
  for i, year in ipairs(years) do rows[i] = balance_row(tostring(year.year), year, job, view) end
  page:table(balance_heads("Year", view, currency), rows)
  local season = job.season
  if not season.has_dry_year then return end
  local v = "\n" .. view:unit("volume")
  local function cells(name, spread)
    return { name, view:cell("volume", spread.p10), view:cell("volume", spread.p50), view:cell("volume", spread.p90) }
  end
  page:table({ "\nOver the years, weather alone", "P10" .. v, "P50" .. v, "P90" .. v },
    { cells("Top-up of a year", season.year_topup), cells(defined.peak, season.year_peak) })
  page:paragraph(defined.week)
  if season.few_years then
    page:paragraph(("Only %d whole years: the percentiles are rough.") :format(season.whole_years))
  end
end

function sections.methods(page, job, view)
  page:heading("Methods of evaporation beside each other")
  local rows = { { job.report.title .. " (this report)", view:cell("volume", job.season.a_week) } }
  local function days(count) return count == 1 and "1 day" or count .. " days" end
  for i, other in ipairs(job.band) do
    rows[i + 1] = { other.title .. (other.lacking > 0 and " *" or ""), view:cell("volume", other.a_week) }
  end
  page:table({ "\nMethod of evaporation", "Top-up a week\n" .. view:unit("volume") }, rows)
  local most, left_out = 0, {}
  for _, other in ipairs(job.band) do most = math.max(most, other.lacking) end
  if most > 0 then
    page:paragraph("* Lacks up to %s of %d: such a day is taken from this report's method, times the ratio of both over all other days.",
      days(most), job.totals.days)
  end
  for i, other in ipairs(job.band.left_out) do
    left_out[i] = ("%s (lacks %s of %d)"):format(other.title, days(other.lacking), other.days)
  end
  if #left_out > 0 then page:paragraph("Left out: " .. table.concat(left_out, "; ") .. ".") end
  if job.band.wide then
    page:paragraph "No second method can be run on this weather: the other figures are those of a quarter less and a quarter more evaporation. Temperatures (tmin, tmax) and a latitude allow more."
  end
  page:paragraph "These are no range: methods err together, and what is not known of the place is in none of them. The ranges above have the method's own error; a method whose error is not known for ponds (mass transfer with water as warm as the air) is in no range."
end

return sections

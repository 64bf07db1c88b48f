-- SPDX-License-Identifier: MIT
-- The water of the top-up report: the answer, weeks, months, years, methods.
local losses = require "common.losses"
local stats = require "common.stats"
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

function sections.price(job)
  local costs = job.pond:description().costs
  if not costs or not (costs.water or costs.sewer) then return nil end
  return (costs.water or 0) + (costs.sewer or 0), costs.currency or ""
end

local function money(job, volume)
  local each, currency = sections.price(job)
  return each and ("%s %s"):format(text.number(volume * each, 2), currency) or nil
end

-- Volume between trigger and target.
local function fill_of(job)
  local f, basin = job.facts, job.pond:basin()
  if not (f.trigger and f.target) then return 0 end
  return basin:volume(f.target) - basin:volume(f.trigger)
end

-- Days and top-up of the month of the year that takes most a day.
local function peak_month(job)
  local sums, best = {}, nil
  for _, m in ipairs(whole(job.months)) do
    local sum = sums[m.month] or { month = m.month, topup = 0, days = 0 }
    sum.topup, sum.days = sum.topup + m.topup, sum.days + m.days
    sums[m.month] = sum
  end
  for month = 1, 12 do
    local sum = sums[month]
    if sum and sum.topup > 0 and (not best or sum.topup / sum.days > best.topup / best.days) then best = sum end
  end
  return best
end

function sections.answer(page, job, view)
  local t, years = job.totals, job.totals.days / 365.25
  local lows, highs = t.topup, t.topup
  for _, other in ipairs(job.band) do
    lows = math.min(lows, other.totals.topup)
    highs = math.max(highs, other.totals.topup)
  end
  local a_week = 7 / t.days
  local paid = money(job, t.topup)
  local lines = {
    ("From %s to %s (%s) this pond takes %s of top-up water, %s a week on average%s.")
      :format(t.first, t.last, t.days == 1 and "1 day" or t.days .. " days", view:show("volume", t.topup),
              view:show("volume", t.topup * a_week), paid and ", " .. paid .. " in all" or ""),
  }
  if #job.band > 0 and highs > 0 then
    lines[#lines + 1] = ("The methods that this weather allows give %s a week: take the figure as an estimate, not a measurement.")
      :format(view:range("volume", lows * a_week, highs * a_week))
  end
  if years >= 3 then
    local each = stats.pick(whole(job.years), "topup")
    if #each >= 3 then
      lines[#lines + 1] = ("Of the %d whole years the middle one takes %s, a dry one (P90) %s.")
        :format(#each, view:show("volume", stats.percentile(each, 50)),
                view:show("volume", stats.percentile(each, 90)))
    end
  end
  local peak = peak_month(job)
  if peak then
    lines[#lines + 1] = ("The greatest month is %s, with %s a week.")
      :format(text.months[peak.month], view:show("volume", peak.topup * 7 / peak.days))
  end
  local fill = fill_of(job)
  if fill > 0 then
    lines[#lines + 1] = ("One filling takes %s (from trigger to target), so that weeks come in steps of it; months are smoother.")
      :format(view:show("volume", fill))
  end
  for _, line in ipairs(lines) do page:paragraph(line) end
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
  local each = sections.price(job)
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
  local _, currency = sections.price(job)
  page:table(balance_heads("Week", view, currency), rows)
  page:paragraph("Drop at the ruler: how far the losses alone would lower the level. Weeks begin on Monday (ISO 8601).")
end

-- Whole weeks of all years by their number; top-up of each as P10, P50, P90.
function sections.weeks_of_year(job)
  local by_week = {}
  for _, week in ipairs(whole(job.weeks)) do
    local n = week.week
    by_week[n] = by_week[n] or {}
    table.insert(by_week[n], week)
  end
  for _, list in pairs(by_week) do
    list.topup = stats.pick(list, "topup")
    list.p10, list.p50, list.p90 = stats.percentile(list.topup, 10), stats.percentile(list.topup, 50),
      stats.percentile(list.topup, 90)
  end
  return by_week
end

-- A figure for each of the 52 weeks of the year, over the years.
function sections.typical_weeks(page, job, view)
  local by_week = sections.weeks_of_year(job)
  page:heading("The weeks of a year, over all years")
  local rows, bars = {}, {}
  for n = 1, 52 do
    local list = by_week[n]
    if list then
      local mean, drop = stats.mean(list.topup), stats.pick(list, "drop_mm")
      rows[#rows + 1] = {
        ("W%02d, about %s"):format(n, list[#list].first:sub(6)), tostring(#list),
        view:cell("volume", list.p10), view:cell("volume", list.p50), view:cell("volume", list.p90), view:cell("volume", mean),
        view:cell("depth", stats.percentile(drop, 50) / 1000),
        view:cell("depth", stats.percentile(drop, 90) / 1000),
      }
      bars[#bars + 1] = { ("W%02d"):format(n), mean, view:show("volume", mean) }
    end
  end
  local v, d = "\n" .. view:unit("volume"), "\n" .. view:unit("depth")
  page:table({ "\nWeek", "\nYears", "Top-up\nP10" .. v, "\nP50" .. v, "\nP90" .. v, "\nmean" .. v,
    "Drop\nP50" .. d, "\nP90" .. d }, rows)
  page:paragraph("P10, P50, P90: in one year of ten, five of ten, nine of ten it is less. --all-weeks lists every week.")
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
  local _, currency = sections.price(job)
  local rows, many = {}, #job.months > 14
  page:heading(many and "Month by month, mean of the years" or "Month by month")
  if not many then
    for i, m in ipairs(job.months) do
      rows[i] = balance_row(("%s %d%s"):format(text.months[m.month], m.year, m.complete and "" or " (part)"), m, job, view)
    end
  else
    local sums, counts = {}, {}
    for _, m in ipairs(whole(job.months)) do
      local sum = sums[m.month] or {}
      for key, x in pairs(m) do
        if type(x) == "number" then sum[key] = (sum[key] or 0) + x end
      end
      sums[m.month], counts[m.month] = sum, (counts[m.month] or 0) + 1
    end
    for month = 1, 12 do
      if sums[month] then
        rows[#rows + 1] = balance_row(text.months[month], sums[month], job, view, 1 / counts[month])
      end
    end
  end
  rows[#rows + 1] = "-"
  local years = job.totals.days / 365.25
  rows[#rows + 1] = many and balance_row("A year", job.totals, job, view, 1 / years)
    or balance_row("In all", job.totals, job, view)
  page:table(balance_heads("Month", view, currency), rows)
end

function sections.years(page, job, view)
  local years = whole(job.years)
  if #years < 2 then return end
  page:heading("Year by year")
  local _, currency = sections.price(job)
  local rows = {}
  for i, year in ipairs(years) do rows[i] = balance_row(tostring(year.year), year, job, view) end
  page:table(balance_heads("Year", view, currency), rows)
  if #years < 3 then return end
  local peaks, topup = {}, stats.pick(years, "topup")
  local peak_of = {}
  for _, week in ipairs(whole(job.weeks)) do
    peak_of[week.year] = math.max(peak_of[week.year] or 0, week.topup)
  end
  for _, year in ipairs(years) do peaks[#peaks + 1] = peak_of[year.year] or 0 end
  page:table({ "\nOver the years", "P10\n" .. view:unit("volume"), "P50\n" .. view:unit("volume"),
    "P90\n" .. view:unit("volume") }, {
    { "Top-up of a year", view:cell("volume", stats.percentile(topup, 10)),
      view:cell("volume", stats.percentile(topup, 50)), view:cell("volume", stats.percentile(topup, 90)) },
    { "Greatest week of a year", view:cell("volume", stats.percentile(peaks, 10)),
      view:cell("volume", stats.percentile(peaks, 50)), view:cell("volume", stats.percentile(peaks, 90)) },
  })
  if #years < 10 then
    page:paragraph(("Only %d whole years: the percentiles are rough.") :format(#years))
  end
end

function sections.band(page, job, view)
  if #job.band == 0 then return end
  page:heading("One figure and its band")
  local weeks = job.totals.days / 7
  local rows = { { job.report.title .. " (this report)", view:cell("volume", job.totals.topup / weeks) } }
  for _, other in ipairs(job.band) do
    rows[#rows + 1] = { other.report.title, view:cell("volume", other.totals.topup / weeks) }
  end
  page:table({ "\nMethod of evaporation", "Top-up a week\n" .. view:unit("volume") }, rows)
end

return sections

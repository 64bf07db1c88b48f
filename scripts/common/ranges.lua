-- SPDX-License-Identifier: MIT
-- The ranges of a pond's top-up (pond:forecast), as every report says them.
local inputs = require "common.inputs"
local money = require "common.money"
local site = require "common.site"
local text = require "common.text"

local ranges = {}

--[[
  ranges.of(pond, weather, options) -> pond:forecast with .price a m3 and .currency of the description, .years and
  .place (section site, or empty); nil and the reason, where the method has no range
]]
function ranges.of(pond, weather, options)
  local ok, f = inputs.tried(pond.forecast, pond, weather, options)
  if not ok and type(f) == "table" and f.path == "method" then return nil, f.text end
  if not ok then error(f, 0) end
  local d = pond:description()
  f.price, f.currency = money.price(d)
  f.place = d.site or {}
  for _, m in ipairs(f.months) do
    if m.month == f.peak_month then f.peak, f.peak_days, f.peak_name = m.a_week, m.days, text.months[m.month] end
  end
  return f
end

-- Does anything top the pond up in any of the worlds?
function ranges.some(f) return f and f.a_week.p90 > 0 end

-- "1,457 to 3,131 US gal"
function ranges.span(r, view) return view:range("volume", r.p10, r.p90) end

-- ", 24.04 to 51.67 USD", or nothing where the description has no price.
function ranges.paid(f, r)
  return f.price and (", %s to %s %s"):format(text.number(r.p10 * f.price, 2), text.number(r.p90 * f.price, 2), f.currency) or ""
end

-- ---- the table ----------------------------------------------------------------------

-- A row of a range, times a share; 'shown' gives the text of a volume.
local function row(label, r, share, shown)
  local function cell(x) return x and shown(x * share) or "-" end
  local years = r.count > 1
  return { label, cell(r.p10), cell(r.p50), cell(r.p90), years and cell(r.weather_p10) or "-", years and cell(r.weather_p90) or "-",
    cell(r.site_p10), cell(r.site_p90) }
end

function ranges.table(page, f, view)
  local unit, rows = view:unit("volume"), {}
  local function volume(x) return view:cell("volume", x) end
  rows[1] = row("A week, all year", f.a_week, 1, volume)
  if f.peak then
    rows[#rows + 1] = row("A week in " .. f.peak_name, f.peak, 1, volume)
    rows[#rows + 1] = row("All " .. f.peak_name, f.peak, f.peak_days / 7, volume)
  end
  if f.year.count > 0 then
    rows[#rows + 1] = row("A year", f.year, 1, volume)
    if f.price then
      rows[#rows + 1] = row("A year, " .. f.currency, f.year, f.price, function(x) return text.number(x, 2) end)
    end
  end
  page:table({ "\nTop-up\n" .. unit, "\n\nP10", "\n\nP50", "\n\nP90", "weather\nalone\nP10", "\n\nP90", "place\nalone\nP10", "\n\nP90" }, rows)
end

-- ---- sentences ------------------------------------------------------------------------

local function listed(names)
  if #names < 2 then return names[1] end
  return table.concat(names, ", ", 1, #names - 1) .. " and " .. names[#names]
end

-- What of the place is described, and what is not.
local function place(f)
  local b, known, open = f.budget, {}, {}
  for _, name in ipairs { "wind", "sun", "surroundings" } do
    local word = f.place[name] and ('%s "%s"'):format(name, f.place[name]) or name .. " by a number"
    table.insert(b[name .. "_described"] and known or open, b[name .. "_described"] and word or name)
  end
  if f.place.station then known[#known + 1] = ('station "%s"'):format(f.place.station) else open[#open + 1] = "station" end
  return known, open
end

-- Year and week, the first sentences.
function ranges.usual(f, view)
  local list, y = {}, f.year
  if y.count > 0 then
    list[1] = ("A usual year takes %s of top-up; 8 times in 10 it is %s%s."):format(view:show("volume", y.p50), ranges.span(y, view),
      ranges.paid(f, y))
  end
  list[#list + 1] = ("A usual week takes %s over %s (%s)%s."):format(view:show("volume", f.a_week.p50),
    y.count > 0 and "the year" or "these days", ranges.span(f.a_week, view),
    f.peak and (", in %s, the greatest month, %s (%s)"):format(f.peak_name, view:show("volume", f.peak.p50), ranges.span(f.peak, view)) or "")
  return list
end

-- Under what the ranges hold.
function ranges.condition(f)
  local known, open = place(f)
  local said = {}
  if #known > 0 then said[1] = "the place as described (" .. table.concat(known, ", ") .. ")" end
  if #open > 0 then
    said[#said + 1] = ("%s of which the description does not say, anywhere in what gardens have")
      :format((#known > 0 and "" or "a place, ") .. listed(open))
  end
  if f.budget.measured then said[#said + 1] = "evaporation as it was measured at the pond" end
  if f.budget.calibrated then said[#said + 1] = "evaporation as it was calibrated (open_water_factor)" end
  local years = f.year.count
  local assumed = site.assumed(f.budget)
  return ("%sThe ranges hold 8 times in 10 for %s; and for weather like that of %s. A leak is in none of them.")
    :format(assumed and assumed .. " " or "", table.concat(said, "; for "), years > 0 and ("its %d whole year%s%s"):format(years, years == 1 and "" or "s",
      tarn.few_years(years) and ", which are few: a drier one may be missing" or "") or "these days, less than a year")
end

-- Weather and place told apart.
function ranges.apart(f, view)
  local r = f.year.count > 1 and f.year or f.peak or f.a_week
  local of = r == f.year and "a year" or r == f.peak and "a week in " .. f.peak_name or "a week"
  if r.count < 2 then
    return ("Of %s the range is that of the place alone: there is one year of weather, or less."):format(of)
  end
  return ("Of the range of %s, the weather's years alone make %s; what is not known of the method, the station and the place alone makes %s.")
    :format(of, view:range("volume", r.weather_p10, r.weather_p90), view:range("volume", r.site_p10, r.site_p90))
end

local MEASURES = {
  bucket = "a bucket or pan in the pond, ten dry days",
  sun = "hours of sun at the pond, a day a month",
  station = "weather measured in the garden",
  wind = "a wind gauge over the pond",
  words = "words for wind, sun and surroundings",
}

-- The measurement that narrows a range most.
function ranges.best(f)
  local r = f.year.count > 0 and f.year or f.peak or f.a_week
  local best = r.worth[1]
  if not best then return nil end
  return ("What narrows the range of %s most is %s: to %.2f of its width%s."):format(
    r == f.year and "a year" or r == f.peak and "a week in " .. f.peak_name or "a week", MEASURES[best.remedy], best.ratio,
    best.halves and ", so half of it or less" or "; nothing halves it")
end

local SEEN = 0.995            -- what changes a width by less is left out

-- All measurements, for the ranges of a week and a year.
function ranges.worth(page, f)
  local of, heads, rows, at = {}, { "\nMeasured" }, {}, {}
  local function take(r, name)
    if r and #r.worth > 0 then of[#of + 1], heads[#heads + 1] = r, name end
  end
  take(f.peak, "A week\nin " .. (f.peak_name or ""))
  if f.year.count > 0 then take(f.year, "\nA year") end
  if #of == 0 then take(f.a_week, "\nA week") end
  if #of == 0 then return end
  heads[#heads + 1] = "Place\nalone"
  for c, r in ipairs(of) do
    for _, w in ipairs(r.worth) do
      if w.site_ratio < SEEN and not at[w.remedy] then
        at[w.remedy] = { MEASURES[w.remedy] }
        rows[#rows + 1] = at[w.remedy]
      end
      if at[w.remedy] then
        at[w.remedy][c + 1], at[w.remedy][#of + 2] = ("%.2f"):format(w.ratio), ("%.2f"):format(w.site_ratio)
      end
    end
  end
  for _, cells in ipairs(rows) do
    for c = 1, #of + 2 do cells[c] = cells[c] or "1.00" end
  end
  page:heading("What narrows the ranges")
  page:table(heads, rows)
  page:paragraph("Width of P10 to P90 after the measurement over that before it, each alone; what changes it by less than 1 in 200 is left out. \"Place alone\": of what is not known of method, station and place.")
end

-- ---- as data --------------------------------------------------------------------------

local FIGURES = { "count", "mean", "p10", "p50", "p90", "weather_p10", "weather_p90", "site_p10", "site_p90", "weather_share",
  "site_share" }

-- The ranges as CSV text, m3; docs/ledger-csv.md says which line is what.
function ranges.csv(f, no_range)
  if not f then tarn.mistake("there is no range to write: " .. no_range) end
  local out = { "period,number," .. table.concat(FIGURES, ",") }
  local function add(period, number, r)
    local cells = { period, number }
    for _, name in ipairs(FIGURES) do cells[#cells + 1] = r[name] and ("%.9g"):format(r[name]) or "" end
    out[#out + 1] = table.concat(cells, ",")
  end
  add("year", "", f.year)
  add("a_week", "", f.a_week)
  for _, m in ipairs(f.months) do add("a_week_of_month", m.month, m.a_week) end
  for _, m in ipairs(f.months) do add("single_week_of_month", m.month, m.week) end
  for _, w in ipairs(f.weeks) do add("week", w.week, w.topup) end
  return table.concat(out, "\n") .. "\n"
end

return ranges

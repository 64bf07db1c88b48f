-- The sections of the top-up report, each on a page (common.page).
local stats = require "common.stats"
local text = require "common.text"

local sections = {}

local MONTHS = { "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec" }
local HORIZON = 120           -- days: what lasts longer is no worry

local function losses_beside(row)
  return row.bed + row.stream + row.splash + row.seepage + row.withdrawal
end

-- Rows that cover a whole week, month or year.
local function whole(rows)
  local out = {}
  for _, row in ipairs(rows) do
    if row.complete then out[#out + 1] = row end
  end
  return out
end

local function price(job)
  local costs = job.pond:description().costs
  if not costs or not (costs.water or costs.sewer) then return nil end
  return (costs.water or 0) + (costs.sewer or 0), costs.currency or ""
end

local function money(job, volume)
  local each, currency = price(job)
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
  if #job.band > 0 then
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
      :format(MONTHS[peak.month], view:show("volume", peak.topup * 7 / peak.days))
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
  local each = price(job)
  return {
    label,
    view:cell("volume", (row.rain + row.runoff) * share),
    view:cell("volume", row.evaporation * share),
    view:cell("volume", losses_beside(row) * share),
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
  local _, currency = price(job)
  page:table(balance_heads("Week", view, currency), rows)
  page:paragraph("Drop at the ruler: how far the losses alone would lower the level. Weeks begin on Monday (ISO 8601).")
end

-- A figure for each of the 52 weeks of the year, over the years.
function sections.typical_weeks(page, job, view)
  local by_week = {}
  for _, week in ipairs(whole(job.weeks)) do
    local n = week.week
    by_week[n] = by_week[n] or {}
    table.insert(by_week[n], week)
  end
  page:heading("The weeks of a year, over all years")
  local rows, bars = {}, {}
  for n = 1, 52 do
    local list = by_week[n]
    if list then
      local topup = stats.pick(list, "topup")
      local p10, p50, p90 = stats.percentile(topup, 10), stats.percentile(topup, 50), stats.percentile(topup, 90)
      local mean = stats.mean(topup)
      local drop = stats.pick(list, "drop_mm")
      rows[#rows + 1] = {
        ("W%02d, about %s"):format(n, list[#list].first:sub(6)), tostring(#list),
        view:cell("volume", p10), view:cell("volume", p50), view:cell("volume", p90), view:cell("volume", mean),
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
  page:heading("Mean top-up of each week")
  page:bars(bars)
end

function sections.week_bars(page, job, view)
  local bars = {}
  for i, week in ipairs(job.weeks) do
    bars[i] = { ("%d-W%02d"):format(week.week_year, week.week), week.topup, view:show("volume", week.topup) }
  end
  page:heading("Top-up by week")
  page:bars(bars)
end

function sections.months(page, job, view)
  local _, currency = price(job)
  local rows, many = {}, #job.months > 14
  page:heading(many and "Month by month, mean of the years" or "Month by month")
  if not many then
    for i, m in ipairs(job.months) do
      rows[i] = balance_row(("%s %d%s"):format(MONTHS[m.month], m.year, m.complete and "" or " (part)"), m, job, view)
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
        rows[#rows + 1] = balance_row(MONTHS[month], sums[month], job, view, 1 / counts[month])
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
  local _, currency = price(job)
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
    { "Its greatest week", view:cell("volume", stats.percentile(peaks, 10)),
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

-- ---- the questions beside ------------------------------------------------------

function sections.pond(page, job, view)
  local f, basin, d = job.facts, job.pond:basin(), job.pond:description()
  local at = f.target or f.trigger or f.lip
  local list, shape = {}, d.basin
  local function add(...) list[#list + 1] = string.format(...) end
  if type(shape) == "table" and shape.length then
    add("Basin: %s, %s long, %s wide, %s deep at the edge.", shape.shape or "rectangle",
      view:show("length", shape.length), view:show("length", shape.width), view:show("length", shape.depth))
  end
  add("Levels above the floor: lip %s, target %s, trigger %s, intake %s.", view:level(f.lip),
    view:level(f.target or f.trigger), view:level(f.trigger), view:level(f.intake))
  add("Water at the lip: %s, surface %s, mean depth %s.", view:show("volume", f.lip_volume),
    view:show("area", f.lip_area), view:show("length", f.lip_volume / f.lip_area))
  add("One %s at the %s: %s.", view.name == "us" and "inch" or "centimetre", f.target and "target" or "lip",
    view:show("volume", basin:area(at) * (view.name == "us" and tarn.units.inch or tarn.units.cm)))
  add("Bed %s, stream and falls %s; held above the pond while the pump runs: %s.", view:show("area", f.bed_area),
    view:show("area", f.wetted - f.lip_area - f.bed_area), view:show("volume", f.transit))
  local t = job.totals
  if t.evaporation > 0 then
    add("While the pump runs, all losses show at the ruler: over this run they were %.2f times what the open water alone evaporated.",
      (t.evaporation + losses_beside(t)) / t.evaporation)
  end
  if f.lip_volume > 100 or f.lip_volume / f.lip_area > 2.5 then
    add("This is a large or deep pond for a garden: are all units given (16 * ft, not 16)?")
  end
  local each, currency = price(job)
  if each then
    add("Water and sewer together: %s %s.", text.number(each * (view.name == "us" and tarn.units.kgal or 1), 2),
      currency .. (view.name == "us" and " per 1,000 US gal" or " per m3"))
  end
  page:heading("The pond")
  page:list(list)
end

function sections.pump(page, job, view)
  local f = job.facts
  local at = f.target or f.trigger or f.lip
  local swing = job.pond:swing(at)
  page:heading("When the pump stops and starts")
  page:paragraph(("Running and at %s, a stop lets %s come back: the level rises %s%s. A start pulls it down as far.")
    :format(f.target and "the target level" or "the level where top-up ends", view:show("volume", f.transit),
            view:show("depth", swing.stopped - at),
            swing.spill > 0 and (", and %s runs over the lip"):format(view:show("volume", swing.spill))
              or (", and %s are left to the lip"):format(view:show("depth", f.lip - swing.stopped))))
  local w, solved = job.pond:works(), {}
  for _, part in ipairs { { "bed_from", "over the bed's lip" }, { "stream_from", "in the stream" }, { "drain_from", "in the pipes" } } do
    if w[part[1]] == "solved" then solved[#solved + 1] = part[2] end
  end
  if #solved > 0 then
    page:paragraph(("Worked out from flow, lips and pipes: the water %s."):format(table.concat(solved, ", ")))
  end
  if job.facts.transit == 0 then
    page:paragraph("Nothing is described as held above the pond (bed.head, stream.depth, pump.drainback; or a pump with pipes and falls): measure the rise once.")
  end
end

-- Days to the intake by month of leaving. The worst is that of every start
-- whose answer is known; the percentiles take the starts with HORIZON days of
-- weather after them, so that those near the end do not bend the figures.
function sections.endurance(page, job, view)
  if not job.endurance then return end
  local f, n, by_month = job.facts, #job.endurance, {}
  local horizon = math.min(HORIZON, n // 2)
  for i, days in ipairs(job.endurance) do
    local month = tonumber(job.days[i].date:sub(6, 7))
    local row = by_month[month] or { worst = math.huge }
    row.worst = math.min(row.worst, days or math.huge)
    if i <= n - horizon + 1 then row[#row + 1] = math.min(days or math.huge, horizon + 1) end
    by_month[month] = row
  end
  local function cell(days)
    if days ~= days then return "-" end
    return days > horizon and "over " .. horizon or text.number(days)
  end
  local rows = {}
  for month = 1, 12 do
    local row = by_month[month]
    if row then
      rows[#rows + 1] = { MONTHS[month], cell(row.worst), cell(stats.percentile(row, 10)),
        cell(stats.percentile(row, 50)), tostring(#row) }
    end
  end
  page:heading("Away from home: days until the intake is exposed, without top-up")
  page:table({ "Leaving in", "Worst", "P10", "P50", "Starts" }, rows)
  page:paragraph(("From the %s down to the intake: %s. In one start of ten it takes fewer days than P10, in half fewer than P50. Wind, a leak and splash that is not described shorten it.")
    :format(f.target and "target" or f.trigger and "trigger" or "lip",
            view:show("depth", (f.target or f.trigger or f.lip) - f.intake)))
end

-- Electricity of the pump, from its watts.
function sections.power(page, job, view)
  local costs = job.pond:description().costs
  if costs and costs.power then
    page:paragraph("The pump's electricity is not in these costs.")
  end
end

function sections.assumptions(page, job, view)
  local list, d, f = {}, job.pond:description(), job.facts
  local e = d.evaporation or {}
  local function add(...) list[#list + 1] = string.format(...) end
  add("Evaporation: %s.", job.report.title)
  for _, rule in ipairs(job.report.rules) do
    add("%s: %d of %d days.", rule.title, rule.days, job.report.days)
  end
  for _, note in ipairs(job.weather:notes()) do list[#list + 1] = note end
  if not e.shelter then add("Wind at the pond as at the station: give evaporation.shelter if walls or trees stand around it.") end
  if not e.shade then add("Sun at the pond as at the station: give evaporation.shade if trees or walls stand around it.") end
  if not d.splash then add("Splash: none described. It is a figure that only a measurement gives (falls on, then off).")
  else add("Splash: %s a day while the pump runs, as described.", view:show("volume", f.splash * 86400)) end
  if not d.seepage then add("Seepage: none described; a sound liner loses nothing that a ruler shows.") end
  if f.bed_area > 0 and not (d.bed and d.bed.plant_factor) then
    add("Plants of the bed: 1.2 x grass reference all year (FAO-56 Table 12); a few square metres in dry surroundings take more, dead stands less.")
  end
  if d.bed and f.bed_area == 0 then
    add("The bed has no size yet (bed.length and width, or area), so it is not counted: `tarn bed` proposes one.")
  end
  if (f.wetted - f.lip_area - f.bed_area) > 1e-9 then
    add("Stream and falls evaporate %.2g times as much as still water%s.", f.stream_factor,
      (d.stream and d.stream.factor) and "" or " (default; 1.4 to 1.7 was measured on disturbed pools)")
  end
  if not (d.pump and d.pump.hours) then add("The pump runs all day, all year.") end
  if not f.trigger then add("No top-up is described (no trigger level).")
  elseif not d.supply then add("The supply gives as much as is wanted, on any day.") end
  add("On the first morning the level stands at %s.", view:level(job.totals.start_level))
  add("The ledger closes to %.0e of the water turned over.", job.totals.residual)
  page:heading("Method and assumptions")
  page:list(list)
end

function sections.warnings(page, job, view)
  local t, f, list = job.totals, job.facts, {}
  local function add(...) list[#list + 1] = string.format(...) end
  if t.refused > 0 then add("On %d days top-up was wanted and not allowed.", t.refused) end
  if t.unmet > 1e-9 then add("At the most %s of top-up were wanted and not given on a day.", view:show("volume", t.unmet)) end
  if t.lowest_date and (t.refused > 0 or t.unmet > 1e-9 or not f.trigger) then
    add("The lowest level was %s under the lip, on %s.", view:show("depth", f.lip - t.lowest_level), t.lowest_date)
  end
  if t.starved > 0 then add("On %d days the pond held too little water to start its pump.", t.starved) end
  if t.under_intake > 0 then add("On %d days the level ended under the intake.", t.under_intake) end
  if t.dry > 0 then add("On %d days a loss found no water: %s in all.", t.dry, view:show("volume", t.shortfall)) end
  if #list == 0 then return end
  page:heading("Take note")
  page:list(list)
end

function sections.cautions(page)
  page:heading("Cautions")
  page:list({
    "An estimate from weather and sizes; a meter and a ruler on the pond itself are better. From weather alone nobody can say that a pond leaks.",
    "Fill through an air gap or an approved backflow preventer: pond water must never reach drinking water. Local plumbing codes rule.",
    "Tap water holds chlorine or chloramine: fish stand small, slow additions best; ask your supplier what it uses.",
    "Deep water is a danger to children, and pumps to all if their wiring is not protected: follow local codes and leave electrical work to licensed people.",
  })
end

return sections

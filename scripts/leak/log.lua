-- SPDX-License-Identifier: MIT
-- What a log of levels says: verdict, fit, weeks, intervals, calibration.
local inputs = require "common.inputs"
local money = require "common.money"
local rates = require "leak.rates"

local u = tarn.units

local log = {}

local INTERVALS_LISTED = 12

local FATES = {
  refilled = "water was added, and how much is not known", ["pump switched"] = "the pump was switched: water in transit came or went",
  skipped = "the note sets them aside", ["no weather"] = "outside the weather's dates",
  spilled = "at the lip with rain: what ran over is not known", ["unexplained rise"] = "a rise without rain or note",
}

-- What is said of the place: what an interval rests on.
local PLACES = {
  undescribed = "neither wind nor sun of the place is described",
  half_described = "of wind and sun of the place only one is described",
  described = "wind and sun of the place as described",
  paved = "wind, sun and a paved or dry yard as described",
  paved_alone = "a paved or dry yard is described, wind and sun not both",
  measured = "as measured at the pond",
}

local function assumption(r)
  return ("if evaporation here is %.2f +- %.2f times what the method gives here (%s)"):format(r.prior_mean, r.prior_sd, PLACES[r.site])
end

-- ", at most 71.40 USD a year", where the description has a price.
local function paid(job, v)
  local said = v.high > 0 and money.behind(job.pond:description(), v.high * 365.25, "at most ") or ""
  return said ~= "" and said .. " a year" or ""
end

-- What was logged, and of a level that is free to fall what it says.
local function put_numbers(page, job, view)
  local r, f, a = job.r, job.pond:facts(), job.advice
  page:paragraph("Open water %s, bed %s, stream %s. %d of %d intervals from %s to %s, %s days: open-water evaporation %s, rain %s.",
    view:show("area", r.area), view:show("area", f.bed_area), view:show("area", f.wetted - f.full_area - f.bed_area),
    r.used, r.readings - 1, job.intervals[1].from, job.intervals[#job.intervals].to, rates.days(r.days),
    view:show("depth", a.open_water_mm / 1000), view:show("depth", a.rain_mm / 1000))
  if job.info.levels > 0 then
    page:paragraph("Expected drop at your ruler: %s (%s). You logged %s.", view:show("depth", r.expected_mm.mean / 1000),
      view:range("depth", r.expected_mm.low / 1000, r.expected_mm.high / 1000), view:show("depth", r.logged_mm / 1000))
  end
  if a.word == "held" then return end
  local e, v = r.unexplained_mm_d, r.unexplained_m3_d
  page:paragraph("Unexplained%s: %s/week, about %s/day at the ruler, best %s%s: a 90 %% interval, %s.",
    r.change.found and ", over the whole log" or "", rates.drop_range(view, e, 7), rates.volume_range(view, v), view:cell("volume", v.mean),
    paid(job, v), assumption(r))
end

-- What the log says, by the word of its advice.
local SAYS = {
  gains = "Cannot tell. Less is lost than weather would have, so that something may come in: is the fill valve shut, does other water come in, or is the pond more shaded or sheltered than its description says?",
  loses = "Outside what weather explains. The interval lies wholly above zero; where the site is what it is taken for, one sound pond in twenty gives such an answer. It does not say where the water goes: splash, a wet edge, a wrong area and a leak look alike in a log.",
  sound = "Inside what weather explains: a loss of %s/day, which is worth searching for, would have shown. Cannot tell below %s/day%s.",
  unclear = "%sCannot tell below %s/day: the interval holds zero, and a loss of %s/day is worth searching for%s%s.",
  maybe_held = "Cannot tell. No loss shows, and the log does not speak against a level that something holds: what fills a pond makes good what a leak takes. Was the fill valve shut all the while?%s",
}
SAYS.held = "This log cannot show a leak: something fills the pond. Its level is held at %s%s: in %s days weather asks for a fall of %s, and %.0f %% of it, %s, was made good. What a leak takes would be made good as well. Shut the fill valve, or read its meter, and log again; if no valve is there or it is shut, find what else comes in."
SAYS.loses_since = SAYS.loses:gsub("The interval lies", "The loss after the change stands")
local BUCKET = "; a bucket for %d day%s, pump on and off, would tell down to %s/day"

local LONG = 120              -- days of readings that nobody is asked for; our own

-- How many more days of readings tell a loss that matters.  what: that loss
local function more_days(a, what)
  if not (a.more_most and a.more_most > 0) then return "" end
  if a.more_least > LONG then return (": more than %d more days of readings would tell %s"):format(LONG, what) end
  return (": %.0f to %s more days of readings tell %s in 8 ponds of 10"):format(a.more_least,
    a.more_most > LONG and "over " .. LONG or ("%.0f"):format(a.more_most), what)
end

local function verdict_text(job, view)
  local held = job.r.held
  if job.advice.word == "held" then
    return SAYS.held:format(view:level(held.level), held.described and ", where its description tops up" or "",
      rates.days(held.days), view:show("depth", held.asked_mm / 1000), 100 * held.share,
      view:show("depth", held.filled_mm / 1000))
  end
  local a, resolved, bucket = job.advice, rates.drop(view, job.r.resolvable_mm_d), ""
  if a.test_finds_mm_d then
    local days = math.tointeger(a.test_hours // 24)
    bucket = BUCKET:format(days, days == 1 and "" or "s", rates.drop(view, a.test_finds_mm_d))
  end
  if a.word == "unclear" then
    return SAYS.unclear:format(a.normal_so_far and "Normal so far. " or "", resolved, rates.matters(view, job.matters), more_days(a, "it"), bucket)
  end
  if a.word == "maybe_held" then
    local more = more_days(a, rates.matters(view, job.matters) .. "/day")
    return SAYS.maybe_held:format(more ~= "" and " If it was" .. more .. "." or "")
  end
  return SAYS[a.word]:format(rates.matters(view, job.matters), resolved, bucket)
end

local NEXT = {
  shut = "Shut the fill valve for a week or two and read the ruler as before, from a level that the valve had reached; or log the meter of the fill line (meter_gal, meter_m3) beside the ruler. Fish and pump need water: open it again before the intake is bare.",
  keep = "Keep the log: one reading a week, at the same hour, with the fill valve shut or its meter read, tells when that changes.",
  test = "Shut the fill valve, stand a bucket of pond water on a step, mark both levels; pump on for %d h, read; pump off for %d h (let the level settle an hour first), read. A rainy test is void. Enter the readings with --on-hours, --on-drop, --on-bucket, --off-hours, --off-drop, --off-bucket. Two days are better than one; fish need air.",
}

local function next_test(job)
  local hours = job.advice.test_hours
  return hours and NEXT[job.advice.next]:format(hours, hours) or NEXT[job.advice.next]
end

-- A factor that no such site has: before all figures.
local function put_far(page, job)
  local r = job.r
  if not job.advice.factor_far then return end
  page:paragraph("Take note: the log wants an evaporation more than two deviations off what is likely for such a site (%.2f +- %.2f times the expected). Look at the areas, at shelter and shade in the description, at the station's distance, before you trust what follows. Nothing is calibrated by it.",
    r.prior_mean, r.prior_sd)
end

local function put_change(page, job, view)
  local c = job.r.change
  if not c.found then return end
  page:paragraph("Something changed between %s and %s, most likely about %s (%.0f %% sure): from %s/day unexplained before to %s/day after, which is %s/day now.",
    c.first, c.last, c.date, math.min(99, 100 * c.chance), rates.drop_range(view, c.before_mm_d), rates.drop_range(view, c.after_mm_d),
    rates.volume_range(view, { low = c.after_mm_d.low / 1000 * job.r.area, high = c.after_mm_d.high / 1000 * job.r.area }))
end

-- Readings at which the pump had no water: more often a slip than a pond.
local function put_doubts(page, job)
  local doubts = job.leak:doubts()
  if doubts then
    page:paragraph("Take note: %d of %d readings, first on %s, stand under the pump's intake, where it would run dry. Before you trust what follows, look at the log's unit (--log-unit), at the way the ruler counts (--log-sign) and at its zero (--zero).",
      doubts.low, doubts.readings, doubts.first)
  end
end

local function factor(e) return { ("%.2f"):format(e.mean), ("%.2f"):format(e.low), ("%.2f"):format(e.high) } end

function log.answer(page, job, view)
  local held = job.advice.word == "held"        -- the first line, as all else rests on it
  if held then page:paragraph(verdict_text(job, view)) end
  put_doubts(page, job)
  put_far(page, job)
  if not held then page:paragraph(verdict_text(job, view)) end
  put_change(page, job, view)
  put_numbers(page, job, view)
end

local function put_fit(page, job, view)
  local r, rows = job.r, {}
  local function add(name, cells) rows[#rows + 1] = { name, table.unpack(cells) } end
  add("Evaporation, times the expected", factor(r.evaporation_factor))
  add("Rain, times the gauge", factor(r.rain_factor))
  local e, v = r.unexplained_mm_d, r.unexplained_m3_d
  add(("Unexplained, %s/day"):format(view:unit("depth")),
    { view:cell("depth", e.mean / 1000), view:cell("depth", e.low / 1000), view:cell("depth", e.high / 1000) })
  add(("Unexplained, %s/day"):format(view:unit("volume")),
    { view:cell("volume", v.mean), view:cell("volume", v.low), view:cell("volume", v.high) })
  page:heading("What the log says")
  page:table({ "", "Best", "90 % from", "to" }, rows)
  if r.head_tells then
    local h = r.per_head_m3_d_m
    local per = view.name == "us" and u.inch or 0.01
    page:paragraph("The loss grows with the level: %s/day for each %s, %s. A hole sits between the levels where it stops.",
      view:show("volume", h.mean * per), view.name == "us" and "inch" or "centimetre", rates.volume_range(view,
        { low = h.low * per, high = h.high * per }))
  end
end

local function put_intervals(page, job, view, all)
  local rows, counts = {}, {}
  for _, v in ipairs(job.intervals) do
    if FATES[v.fate] then counts[v.fate] = (counts[v.fate] or 0) + 1 end
    if v.expected_mm and not FATES[v.fate] then
      rows[#rows + 1] = { v.from .. " to " .. v.to:sub(6), rates.days(v.days), view:cell("depth", v.logged_mm / 1000),
        view:cell("depth", v.expected_mm / 1000), view:cell("depth", (v.logged_mm - v.expected_mm) / 1000),
        v.wild and "set low" or v.high and "high" or "", over = v.over }
    end
  end
  page:heading("Interval by interval")
  local list = rows
  if not all and #rows > INTERVALS_LISTED then
    list = table.move(rows, 1, #rows, 1, {})
    table.sort(list, function(a, b) return math.abs(a.over) > math.abs(b.over) end)
    list = table.move(list, 1, INTERVALS_LISTED, 1, {})
    table.sort(list, function(a, b) return a[1] < b[1] end)
    page:paragraph("The %d that differ most, of %d (--intervals lists all).", INTERVALS_LISTED, #rows)
  end
  local unit = "\n" .. view:unit("depth")
  page:table({ "\nDays", "\nLength\nd", "Logged\ndrop" .. unit, "Expected\ndrop" .. unit, "Differ-\nence" .. unit, "" }, list)
  local notes = {}
  for fate, count in pairs(counts) do notes[#notes + 1] = ("%d set aside: %s."):format(count, FATES[fate]) end
  table.sort(notes)
  if job.r.wild > 0 then
    notes[#notes + 1] = ("%d readings or intervals look wild (a misread ruler, a hose forgotten) and count little."):format(job.r.wild)
  end
  if #notes > 0 then page:list(notes) end
end

local function put_weeks(page, job, view)
  local weeks, rows, over = job.leak:weeks(), {}, 0
  if #weeks == 0 or job.info.meters < 2 then return end
  for i, w in ipairs(weeks) do
    over = over + (w.over and 1 or 0)
    rows[i] = { w.first .. " to " .. w.last:sub(6), view:cell("volume", w.metered), view:cell("volume", w.implied / w.days),
      view:cell("volume", w.expected / w.days), view:cell("volume", w.expected_high / w.days), w.over and "above" or "" }
  end
  local v = "\n" .. view:unit("volume")
  page:heading("The meter, week by week")
  page:table({ "\nFrom", "\nMetered" .. v, "Implied\nloss a day" .. v,
    "Expected\na day" .. v, "at most\n(P95)" .. v, "" }, rows)
  page:paragraph("A week here is a spell of seven days or more between readings of the meter, not a calendar week. %d of %d weeks stand above what weather explains. One in twenty does by chance; since one error of evaporation rules all weeks, such weeks come in runs.", over, #weeks)
end

local function put_calibration(page, job, view)
  local a = job.advice
  local ok, c = inputs.tried(job.leak.calibration, job.leak)
  page:heading("Calibration")
  if not ok then
    page:paragraph("The fit leaves the range of a description: %s.", tostring(c))
    return
  end
  if a.calibration == "changed" then
    page:paragraph("Something changed within the log, so that one seepage would be right neither before nor after: none is proposed. Evaporation alone: open_water_factor = %.3f, the bed's plant_factor times %.3f.",
      c.open_water_factor, a.factor)
    return
  end
  page:paragraph("For the description, so that other reports follow this pond: open_water_factor = %.3f, the bed's plant_factor times %.3f%s",
    c.open_water_factor, a.factor,
    a.calibration == "loss" and (", seepage = { volume = %.3g * gpd }. A loss that is mended is not to be put in."):format(c.seepage_volume / u.gpd)
      or ", fitted without a loss. No seepage is proposed: the interval of what is unexplained does not lie above zero.")
  if not a.has_holdout then return end
  local h
  ok, h = inputs.tried(job.leak.holdout, job.leak)
  if ok then
    page:paragraph("Fitted on the first %d readings, it predicts the %d others over %s days with an error of %s (root mean square); uncalibrated, %s.",
      h.fitted, h.predicted, rates.days(h.days), view:show("depth", h.rms_mm / 1000), view:show("depth", h.plain_rms_mm / 1000))
  end
end

local function put_method(page, job, view)
  local list, report, info, options = {}, job.leak:report(), job.info, job.leak:options()
  local function add(...) list[#list + 1] = string.format(...) end
  add("Evaporation: %s; one factor for all of it, %.2f +- %.2f before the log is read: %s. Rain: 1 +- %.2f.", report.title,
    job.r.prior_mean, job.r.prior_sd, PLACES[job.r.site], options.rain_error)
  add("Evaporation errs by %.0f %% for weeks (%d such error%s in this log, %s days each) and by %.0f %% a day.", 100 * options.slow_error,
    job.r.slow_effects, job.r.slow_effects == 1 and "" or "s", rates.days(job.r.slow_days), 100 * options.evaporation_noise)
  add("The water's area as described, good to %.0f %%: that is in the volumes a day.", 100 * options.area_error)
  if info.meters > 1 then
    add("True volume over the meter's: %.2f +- %.2f, %s.", job.r.meter_mean, job.r.meter_sd, job.r.meter_by_float
      and "since a float valve dribbles below what a meter counts" or "of a valve opened by hand")
  end
  for _, origin in ipairs(report.origins) do add("%s: %d of %d days.", origin.title, origin.days, report.days) end
  add("A ruler that counts %s from its zero at %s above the floor; readings good to %s (one standard deviation), times %.2f by the log itself.",
    info.counts_down and "down" or "up",
    view:level(options.zero or (info.counts_down and job.pond:facts().overflow_level or job.pond:basin():floor())),
    view:show("depth", options.reading_error), job.r.noise)
  if info.without_time > 0 then add("%d reading%s without a time: taken at %g:00.", info.without_time, info.without_time == 1 and "" or "s", options.hour) end
  if info.ignored then add("Columns of the log that were not used: %s.", info.ignored) end
  if info.unread_notes > 0 then add("%d note%s of which nothing was made.", info.unread_notes, info.unread_notes == 1 and "" or "s") end
  add("Between two readings the level comes from the same daily ledger as all reports%s.",
    job.r.held.found and "" or "; the fill valve is taken as shut unless a meter says otherwise")
  page:heading("Method and assumptions")
  page:list(list)
end

function log.next(page, job)
  page:heading("Next")
  page:paragraph(next_test(job))
end

function log.put(page, job, view, asked)
  log.next(page, job)
  if job.advice.word ~= "held" then put_fit(page, job, view) end
  put_weeks(page, job, view)
  put_intervals(page, job, view, asked.intervals)
  if job.advice.calibration ~= "nothing" then put_calibration(page, job, view) end
  put_method(page, job, view)
end

-- Unexplained losses, for a figure: { name, interval of m3/d }
function log.losses(job)
  local r, c = job.r, job.r.change
  if r.held.found then return {} end
  if not c.found then return { { "The log", r.unexplained_m3_d } } end
  local function volume(e)
    return { mean = e.mean / 1000 * r.area, low = e.low / 1000 * r.area, high = e.high / 1000 * r.area }
  end
  return { { "Before the change", volume(c.before_mm_d) }, { "After it", volume(c.after_mm_d) } }
end

return log

-- leak: is a falling level normal? a ruler log, a meter or a bucket against the weather
local args = require "common.args"
local figure = require "common.levels"
local inputs = require "common.inputs"
local text = require "common.text"
local view_of = require "common.view"

local u = tarn.units

local spec = {
  usage = "tarn leak POND.lua WEATHER.csv LOG.csv [options], or tarn leak [POND.lua] --off-hours ... ",
  purpose = "Is a falling level normal? Weighs a log of levels, or a bucket test, against the weather.",
  positions = {
    { name = "POND.lua", key = "pond", meaning = "description of the pond", optional = true },
    { name = "WEATHER.csv", key = "weather", meaning = "daily weather of the log's days", optional = true },
    { name = "LOG.csv", key = "log", meaning = "date, time, reading_in (or _mm, ...), meter_gal, note", optional = true },
  },
  options = inputs.with_weather {
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the report and of the numbers below: in, ft2 or mm, m2 (us)" },
    { name = "method", value = "NAME", meaning = "evaporation method (auto)" },
    { name = "svg", value = "FILE", meaning = "draw logged level and modelled band" },
    { name = "intervals", meaning = "list every interval of the log" },
    { name = "zero", value = "M", kind = "number", meaning = "level of the ruler's zero, m above the floor (the lip; a ruler that counts up: the floor)" },
    { name = "hour", value = "H", kind = "number", meaning = "of readings without a time (8)" },
    { name = "reading-error", value = "N", kind = "number", meaning = "of one reading, in or mm (1/16 in)" },
    { name = "matters", value = "N", kind = "number", meaning = "a loss worth searching for, in or mm a day (1/8 in)" },
    { name = "log-unit", value = "NAME", meaning = "inch, mm, cm, ft, m where the heading does not say it" },
    { name = "log-sign", value = "NAME", meaning = "down or up, where the heading is wrong" },
    { name = "log-dates", value = "NAME", meaning = "ymd, mdy or dmy (ymd)" },
    { name = "set-aside-rises", meaning = "go on where a rise has no rain and no note" },
    { name = "off-hours", value = "H", kind = "number", meaning = "bucket test, pump off: hours between the readings" },
    { name = "off-drop", value = "N", kind = "number", meaning = "fall of the pond, in or mm" },
    { name = "off-bucket", value = "N", kind = "number", meaning = "fall in the bucket, in or mm" },
    { name = "off-rain", value = "N", kind = "number", meaning = "rain meanwhile, in or mm: voids the test" },
    { name = "on-hours", value = "H", kind = "number", meaning = "the same with the pump on" },
    { name = "on-drop", value = "N", kind = "number", meaning = "" },
    { name = "on-bucket", value = "N", kind = "number", meaning = "" },
    { name = "on-rain", value = "N", kind = "number", meaning = "" },
    { name = "evaporation", value = "N", kind = "number", meaning = "open water, in or mm a day, where no bucket stood" },
    { name = "area", value = "N", kind = "number", meaning = "open water, ft2 or m2, instead of POND.lua" },
    { name = "bed", value = "N", kind = "number", meaning = "area of the planted bed beside it" },
    { name = "stream", value = "N", kind = "number", meaning = "wetted area of stream and falls beside it" },
  },
  more = "The log and the bucket test can be given together. Nothing here says 'leak' from weather alone.",
}

local INTERVALS_LISTED = 12

local function put(...) io.write(text.wrap((...):format(select(2, ...)))) end

-- ---- numbers as the reader wants them --------------------------------------------

-- A rate at the ruler, mm/d, over a time.
local function drop(view, mm_d, days) return view:show("depth", mm_d * (days or 1) / 1000) end

local function drop_range(view, e, days)
  return view:range("depth", e.low * (days or 1) / 1000, e.high * (days or 1) / 1000)
end

local function volume_range(view, e) return view:range("volume", e.low, e.high) end

-- What the owner gives on the command line, to metres.
local function depth_of(view, x) return x and x * (view.name == "us" and u.inch or u.mm) end
local function area_of(view, x) return x and x * (view.name == "us" and u.ft2 or 1) end

-- ---- the pair of tests --------------------------------------------------------------

local PAIR_OPTIONS = { "off_hours", "off_drop", "off_bucket", "on_hours", "on_drop", "on_bucket" }

local function asked_for_pair(asked)
  for _, name in ipairs(PAIR_OPTIONS) do
    if asked[name] then return true end
  end
end

-- What a bucket test must have, told by the names of its options.
local function check_pair(asked)
  if not asked.off_hours and not asked.on_hours then tarn.mistake("a bucket test needs --off-hours or --on-hours") end
  for _, name in ipairs { "off", "on" } do
    local hours, option = asked[name .. "_hours"], "--" .. name
    if hours and not (hours > 0) then tarn.mistake(option .. "-hours must be above 0") end
    if hours and not asked[name .. "_drop"] then tarn.mistake(option .. "-drop is missing beside " .. option .. "-hours") end
    if hours and not asked[name .. "_bucket"] and not asked.evaporation then
      tarn.mistake(option .. "-bucket is missing (or --evaporation, where no bucket stood)")
    end
    if (asked[name .. "_rain"] or 0) > 0 then
      tarn.mistake(option .. "-rain: rain voids the test; repeat it in a dry spell")
    end
  end
  if asked.area and not (asked.area > 0) then tarn.mistake("--area must be above 0") end
end

local function side_of(asked, view, name)
  if not asked[name .. "_hours"] then return nil end
  local rate = asked.evaporation and depth_of(view, asked.evaporation) * 1000
  local rain = asked[name .. "_rain"]
  return {
    hours = asked[name .. "_hours"], drop = depth_of(view, asked[name .. "_drop"]),
    bucket = depth_of(view, asked[name .. "_bucket"]),
    weather = not asked[name .. "_bucket"] and rate or nil,
    rain = rain and depth_of(view, rain) * 1000 or nil,
  }
end

-- A pond of upright walls where only areas are known.
local function plain_pond(asked, view)
  if not asked.area then
    tarn.mistake("the pond is missing: give POND.lua, or --area and, beside it, --bed and --stream")
  end
  local side = math.sqrt(area_of(view, asked.area))
  return tarn.pond {
    basin = { shape = "rectangle", length = side, width = side, depth = 1.2 },
    lip = 1.1, bed = { area = area_of(view, asked.bed) or 0 }, stream = { area = area_of(view, asked.stream) or 0 },
  }
end

local SIDE_TITLES = {
  off = { "Pump off", "the pond's shell and its edges" },
  on = { "Pump on", "pond, stream, falls, bed and pipes together" },
}

-- The verdict of a half; a gain is no sound pond but a test gone wrong.
local function half_verdict(half)
  if half.unexplained_mm_d.high < 0 then
    return "less was lost than evaporation takes (is the fill valve shut, did it rain, were two readings swapped?)"
  end
  return half.verdict
end

-- Falls of a day or two: a tenth of a millimetre counts.
local function fine(view, m)
  return view.name == "metric" and ("%.1f mm"):format(m * 1000) or view:show("depth", m)
end

local function put_half(view, name, half, side, matters)
  local title, what = SIDE_TITLES[name][1], SIDE_TITLES[name][2]
  io.write(text.wrap(("%s, %g h: the pond fell %s, evaporation explains %s. Unexplained: %s/day, %s/day, best %s (%s). Verdict: %s.")
    :format(title, side.hours, fine(view, side.drop), fine(view, half.expected),
      drop_range(view, half.unexplained_mm_d), volume_range(view, half.unexplained_m3_d),
      view:cell("volume", half.unexplained_m3_d.mean), what, half_verdict(half)), "- "))
  if half.verdict ~= "outside what weather explains" then
    local line = ("This test finds a loss of %s/day or more nine times in ten."):format(drop(view, half.resolvable_mm_d))
    if half.hours_needed < 1000 and half.hours_needed > side.hours then
      line = line .. (" For %s/day go on for %d h."):format(drop(view, matters), math.ceil(half.hours_needed / 12) * 12)
    elseif half.hours_needed >= 1000 then
      line = line .. (" No number of hours finds %s/day here: evaporation is too uncertain. Choose a cool, calm spell, or cover bed and stream.")
        :format(drop(view, matters))
    end
    io.write(text.wrap(line, "  "))
  end
end

local function put_pair(asked, view, pond, matters)
  local sides = { off = side_of(asked, view, "off"), on = side_of(asked, view, "on") }
  local r = tarn.pair {
    pond = pond, off = sides.off, on = sides.on, matters = matters,
    reading_error = depth_of(view, asked.reading_error),
  }
  io.write(text.heading("The bucket test"))
  local gains = false
  for _, name in ipairs { "off", "on" } do
    gains = gains or r[name] and r[name].unexplained_mm_d.high < 0
    if r[name] then put_half(view, name, r[name], sides[name], matters) end
  end
  if r.upper_mm_d then
    io.write(text.wrap(("On minus off: %s/day, %s/day, best %s: stream, falls, bed, pipes and splash, which this test cannot tell apart. Verdict: %s.")
      :format(drop_range(view, r.upper_mm_d), volume_range(view, r.upper_m3_d),
        view:cell("volume", r.upper_m3_d.mean), r.upper_verdict), "- "))
  end
  io.write(text.heading("Next"))
  if gains then
    put("Shut the fill valve at its stop, wait for a dry spell, and test again: a pond cannot lose less than the bucket.")
  elseif not r.off then
    put("Repeat with the pump off, for as long: it tells the pond's shell from all that the pump feeds. Let the level settle for an hour before the first reading. Fish need air meanwhile.")
  elseif r.off.verdict == "outside what weather explains" then
    put("The pond loses water with the pump off. Let it fall: where it settles marks the height. Look along the edge for soil, mulch or moss that touches the water, and at the lowest point of the liner.")
  elseif not r.on then
    put("Repeat with the pump on, for as long: a loss that shows only then lies in stream, falls, bed or pipes, or is splash.")
  elseif r.upper_verdict == "outside what weather explains" then
    put("More is lost while the pump runs. Lay cardboard along the falls to see where drops land; lead the pump's hose straight to the pond for two days: if the loss stops, it is stream or falls. If it is all splash, write splash = %.3g * gpd into the description.",
      r.splash.mean / u.gpd)
  else
    put("Nothing is found that evaporation does not explain. Keep the four readings as the pond's own baseline.")
  end
end

-- ---- the log ---------------------------------------------------------------------------

local USES = {
  refilled = "water was added, and how much is not known", ["pump switched"] = "the pump was switched: water in transit came or went",
  skipped = "the note sets them aside", ["no weather"] = "outside the weather's dates",
  spilled = "at the lip with rain: what ran over is not known", ["unexplained rise"] = "a rise without rain or note",
}

local function put_answer(job, view)
  local r, f = job.r, job.pond:facts()
  local rain, evaporation = 0, 0
  for _, v in ipairs(job.intervals) do
    if v.rain_mm and not USES[v.use] then rain, evaporation = rain + v.rain_mm, evaporation + v.open_water_mm end
  end
  put("Open water %s, bed %s, stream %s. %d of %d intervals from %s to %s, %.4g days: open-water evaporation %s, rain %s.",
    view:show("area", r.area), view:show("area", f.bed_area), view:show("area", f.wetted - f.lip_area - f.bed_area),
    r.used, r.readings - 1, job.intervals[1].from, job.intervals[#job.intervals].to, r.days,
    view:show("depth", evaporation / 1000), view:show("depth", rain / 1000))
  if job.info.levels > 0 then
    put("Expected drop at your ruler: %s (%s). You logged %s.", view:show("depth", r.expected_mm.mean / 1000),
      view:range("depth", r.expected_mm.low / 1000, r.expected_mm.high / 1000), view:show("depth", r.logged_mm / 1000))
  end
  local e, v = r.unexplained_mm_d, r.unexplained_m3_d
  put("Unexplained%s: %s/week, about %s/day at the ruler, best %s. The interval holds the truth nine times in ten.",
    r.change.found and ", over the whole log" or "", drop_range(view, e, 7), volume_range(view, v), view:cell("volume", v.mean))
end

local function verdict_text(job, view)
  local r, matters = job.r, drop(view, job.matters)
  if r.gains then
    return "Inside what weather explains, and less is lost than weather would have: is the fill valve shut, does other water come in, or is the pond more shaded or sheltered than its description says?"
  elseif r.outside then
    local which = r.change.found and "The loss after the change stands" or "The interval lies"
    return ("Outside what weather explains. %s wholly above zero; of sound ponds one in twenty gives such an answer. It does not say where the water goes: splash, a wet edge, a wrong area and a leak look alike in a log."):format(which)
  elseif r.inside then
    return ("Inside what weather explains. The interval holds zero, and a loss of %s/day, which is worth searching for, lies outside it."):format(matters)
  end
  return ("Cannot tell. The interval holds zero, and also losses of %s/day that are worth searching for: it is near the noise. A log such as this one shows a loss of %s/day or more, nine times in ten.")
    :format(matters, drop(view, r.resolvable_mm_d))
end

local function next_test(job, view)
  local r = job.r
  if r.inside and not r.gains then
    return "Keep the log: one reading a week, at the same hour, with the fill valve shut or its meter read, tells when that changes."
  end
  local rate, days = 0, 0
  for _, v in ipairs(job.intervals) do
    if v.open_water_mm then rate, days = rate + v.open_water_mm, days + v.days end
  end
  local aim = math.max(job.matters, r.unexplained_mm_d.mean)
  local hours = tarn.pair_hours { readings = 4, loss_mm_d = aim, spread_mm_d = 0.1 * rate / days }
  hours = math.max(24, math.min(96, math.ceil(hours / 24) * 24))
  return ("Shut the fill valve, stand a bucket of pond water on a step, mark both levels; pump on for %d h, read; pump off for %d h (let the level settle an hour first), read. A rainy test is void. Enter the readings with --on-hours, --on-drop, --on-bucket, --off-hours, --off-drop, --off-bucket. Two days are better than one; fish need air.")
    :format(hours, hours)
end

local function put_change(job, view)
  local c = job.r.change
  if not c.found then return end
  put("Something changed between %s and %s, most likely about %s (%.0f %% sure): from %s/day unexplained before to %s/day after, which is %s/day now.",
    c.first, c.last, c.date, math.min(99, 100 * c.chance), drop_range(view, c.before_mm_d), drop_range(view, c.after_mm_d),
    volume_range(view, { low = c.after_mm_d.low / 1000 * job.r.area, high = c.after_mm_d.high / 1000 * job.r.area }))
end

local function factor(e) return { ("%.2f"):format(e.mean), ("%.2f"):format(e.low), ("%.2f"):format(e.high) } end

local function put_fit(job, view)
  local r, rows = job.r, {}
  local function add(name, cells) rows[#rows + 1] = { name, table.unpack(cells) } end
  add("Evaporation, times the expected", factor(r.evaporation_factor))
  add("Rain, times the gauge", factor(r.rain_factor))
  local e, v = r.unexplained_mm_d, r.unexplained_m3_d
  add(("Unexplained, %s/day"):format(view:unit("depth")),
    { view:cell("depth", e.mean / 1000), view:cell("depth", e.low / 1000), view:cell("depth", e.high / 1000) })
  add(("Unexplained, %s/day"):format(view:unit("volume")),
    { view:cell("volume", v.mean), view:cell("volume", v.low), view:cell("volume", v.high) })
  io.write(text.heading("What the log says"), text.table({ "", "Best", "90 % from", "to" }, rows))
  if r.evaporation_factor.high < 0.85 or r.evaporation_factor.low > 1.15 then
    put("The log wants %.2f times the expected evaporation: farther off than the methods stand apart. Look at the areas, at shelter and shade in the description, at the station's distance, before trusting the rest.",
      r.evaporation_factor.mean)
  end
  if r.head_tells then
    local h = r.per_head_m3_d_m
    local per = view.name == "us" and u.inch or 0.01
    put("The loss grows with the level: %s/day for each %s, %s. A hole sits between the levels where it stops.",
      view:show("volume", h.mean * per), view.name == "us" and "inch" or "centimetre", volume_range(view,
        { low = h.low * per, high = h.high * per }))
  end
end

local function put_intervals(job, view, all)
  local rows, counts = {}, {}
  for _, v in ipairs(job.intervals) do
    if USES[v.use] then counts[v.use] = (counts[v.use] or 0) + 1 end
    if v.expected_mm and not USES[v.use] then
      local over = (v.logged_mm - v.expected_mm) / v.expected_sd_mm
      rows[#rows + 1] = { v.from .. " to " .. v.to:sub(6), ("%.4g"):format(v.days), view:cell("depth", v.logged_mm / 1000),
        view:cell("depth", v.expected_mm / 1000), view:cell("depth", (v.logged_mm - v.expected_mm) / 1000),
        (v.wild and "set low" or "") .. ((over > 1.64 and not v.wild) and "high" or ""), over = over }
    end
  end
  io.write(text.heading("Interval by interval"))
  local list = rows
  if not all and #rows > INTERVALS_LISTED then
    list = table.move(rows, 1, #rows, 1, {})
    table.sort(list, function(a, b) return math.abs(a.over) > math.abs(b.over) end)
    list = table.move(list, 1, INTERVALS_LISTED, 1, {})
    table.sort(list, function(a, b) return a[1] < b[1] end)
    put("The %d that differ most, of %d (--intervals lists all).", INTERVALS_LISTED, #rows)
  end
  local unit = "\n" .. view:unit("depth")
  io.write(text.table({ "\nDays", "\nLength\nd", "Logged\ndrop" .. unit, "Expected\ndrop" .. unit, "Differ-\nence" .. unit, "" }, list))
  local notes = {}
  for use, count in pairs(counts) do notes[#notes + 1] = ("%d set aside: %s."):format(count, USES[use]) end
  table.sort(notes)
  if job.r.wild > 0 then
    notes[#notes + 1] = ("%d readings or intervals look wild (a misread ruler, a hose forgotten) and count little."):format(job.r.wild)
  end
  io.write(text.list(notes))
end

local function put_weeks(job, view)
  local weeks, rows, over = job.leak:weeks(), {}, 0
  if #weeks == 0 or job.info.meters < 2 then return end
  for i, w in ipairs(weeks) do
    over = over + (w.over and 1 or 0)
    rows[i] = { w.first .. " to " .. w.last:sub(6), view:cell("volume", w.metered), view:cell("volume", w.implied / w.days),
      view:cell("volume", w.expected / w.days), view:cell("volume", w.expected_high / w.days), w.over and "above" or "" }
  end
  local v = "\n" .. view:unit("volume")
  io.write(text.heading("The meter, week by week"), text.table({ "\nFrom", "\nMetered" .. v, "Implied\nloss a day" .. v,
    "Expected\na day" .. v, "at most\n(P95)" .. v, "" }, rows))
  put("%d of %d weeks stand above what weather explains. One in twenty does by chance; since one error of evaporation rules all weeks, such weeks come in runs.", over, #weeks)
end

local function put_calibration(job, view)
  local r = job.r
  local ok, c = pcall(job.leak.calibration, job.leak)
  io.write(text.heading("Calibration"))
  if not ok then
    put("The fit leaves the range of a description: %s.", tostring(c))
    return
  end
  if r.change.found then
    put("Something changed within the log, so that one seepage would be right neither before nor after: none is proposed. Evaporation alone: open_water_factor = %.3f, the bed's plant_factor times the same.",
      c.open_water_factor)
    return
  end
  put("For the description, so that other reports follow this pond: open_water_factor = %.3f, the bed's plant_factor times %.3f, seepage = { volume = %.3g * gpd }. A loss that is mended is not to be put in.",
    c.open_water_factor, (r.unexplained_m3_d.mean > 0 and r.evaporation_factor or r.sound_factor).mean, c.seepage_volume / u.gpd)
  if r.readings < 6 or r.used < 6 then return end
  local h
  ok, h = pcall(job.leak.holdout, job.leak)
  if ok then
    put("Fitted on the first %d readings, it predicts the %d others over %.4g days with an error of %s (root mean square); uncalibrated, %s.",
      h.fitted, h.predicted, h.days, view:show("depth", h.rms_mm / 1000), view:show("depth", h.plain_rms_mm / 1000))
  end
end

local function put_method(job, view, asked)
  local list, report, info = {}, job.leak:report(), job.info
  local function add(...) list[#list + 1] = string.format(...) end
  add("Evaporation: %s; one factor for all of it, 1 +- 0.15 before the log is read (90 %% within a quarter). Rain: 1 +- 0.10.", report.title)
  for _, rule in ipairs(report.rules) do add("%s: %d of %d days.", rule.title, rule.days, report.days) end
  add("A ruler that counts %s from its zero at %s above the floor; readings good to %s (one standard deviation), times %.2f by the log itself.",
    info.counts_down and "down" or "up",
    view:level(asked.zero or (info.counts_down and job.pond:facts().lip or job.pond:basin():floor())),
    view:show("depth", depth_of(view, asked.reading_error) or u.inch / 16), job.r.noise)
  if info.without_time > 0 then add("%d readings without a time: taken at %g:00.", info.without_time, asked.hour or 8) end
  if info.ignored ~= "" then add("Columns of the log that were not used: %s.", info.ignored) end
  if info.unread_notes > 0 then add("%d notes of which nothing was made.", info.unread_notes) end
  add("Between two readings the level comes from the same daily ledger as all reports; the fill valve is taken as shut unless a meter says otherwise.")
  io.write(text.heading("Method and assumptions"), text.list(list))
end

local function put_cautions()
  io.write(text.heading("Cautions"), text.list {
    "From weather alone nobody can say that a pond leaks. Ten percent of a hot day's evaporation is as much as many a leak.",
    "While the pump is off fish and filter lack air: use an air pump, and stop the test if fish gasp.",
    "Switch off and unplug before reaching into the water; leave wiring to licensed people.",
  })
end

local function put_log(job, view, asked)
  put_answer(job, view)
  io.write("\n", text.wrap(verdict_text(job, view)))
  put_change(job, view)
  io.write(text.heading("Next"), text.wrap(next_test(job, view)))
  put_fit(job, view)
  put_weeks(job, view)
  put_intervals(job, view, asked.intervals)
  put_calibration(job, view)
  put_method(job, view, asked)
end

-- ---- main ---------------------------------------------------------------------------------

local asked = args.read(spec)
local view = view_of(asked.units or "us")
local matters = (depth_of(view, asked.matters) or u.inch / 8) * 1000
local pair = asked_for_pair(asked)
if pair then check_pair(asked) end
local pond, description
if asked.pond then
  pond, description = inputs.pond(asked.pond)
elseif pair then
  pond = plain_pond(asked, view)
end
if not pond or (asked.weather and not asked.log) or (not asked.log and not pair) then
  tarn.mistake("give POND.lua WEATHER.csv LOG.csv, or the readings of a bucket test; usage: " .. spec.usage)
end

local job
if asked.log then
  local log = tarn.log.read(asked.log, { unit = asked.log_unit, sign = asked.log_sign, dates = asked.log_dates })
  job = { pond = pond, matters = matters, info = log:info() }
  job.leak = tarn.leak {
    pond = pond, weather = inputs.weather(asked.weather, asked), log = log, method = asked.method,
    zero = asked.zero, hour = asked.hour, matters = matters, reading_error = depth_of(view, asked.reading_error),
    unnoted = asked.set_aside_rises and "set_aside" or nil,
  }
  job.r, job.intervals = job.leak:result(), job.leak:intervals()
  if asked.svg then
    tarn.write_file(asked.svg, figure(job.leak:path(), pond:facts().lip, view, description.name or asked.pond))
  end
elseif asked.svg then
  tarn.mistake("--svg draws a log: give WEATHER.csv and LOG.csv")
end

local title = description and (description.name or asked.pond) or "A pond"
io.write(title, "\n", ("="):rep(utf8.len(title) or #title), "\n")
if job then put_log(job, view, asked) end
if pair then put_pair(asked, view, pond, matters) end
put_cautions()
if asked.svg then io.write("\nThe figure is in ", asked.svg, "\n") end

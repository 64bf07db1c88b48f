-- topup: weekly top-up water of a pond, its cost, a dry year's, from weather
local args = require "common.args"
local inputs = require "common.inputs"
local stats = require "common.stats"
local text = require "common.text"
local view_of = require "common.view"

local spec = {
  usage = "tarn topup POND.lua WEATHER.csv [options]",
  purpose = "How much water a pond needs, week by week, on real weather.",
  positions = {
    { name = "POND.lua", key = "pond", meaning = "description of the pond" },
    { name = "WEATHER.csv", key = "weather", meaning = "daily weather" },
  },
  options = inputs.with_weather {
    { name = "units", value = "us|metric", choices = { "us", "metric" }, meaning = "of the report (us)" },
    { name = "method", value = "NAME", meaning = "evaporation method (auto)" },
    { name = "first", value = "DATE", meaning = "first day, YYYY-MM-DD" },
    { name = "last", value = "DATE", meaning = "last day" },
    { name = "start-level", value = "M", kind = "number", meaning = "level on the first morning, m above the floor" },
    { name = "all-weeks", meaning = "list every week, however many" },
    { name = "csv", value = "FILE", meaning = "write the daily ledger, whole or not at all" },
  },
}

local MONTHS = { "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec" }
local WEEKS_LISTED = 60       -- more than a year's are summed up instead

local function losses_beside(row)
  return row.bed + row.stream + row.splash + row.seepage + row.withdrawal
end

-- ---- what is computed -------------------------------------------------------

-- One ledger for each method that the weather allows.
local function run_band(pond, weather, options, chosen)
  local band = {}
  for _, method in ipairs(tarn.evaporation.methods(weather, pond:description().evaporation)) do
    if method ~= chosen then
      options.method = method
      local ok, ledger = pcall(pond.run, pond, weather, options)
      if ok then
        band[#band + 1] = { method = method, totals = ledger:totals(), report = ledger:report() }
      end
    end
  end
  return band
end

local function compute(pond, weather, asked)
  local options = {
    first = asked.first, last = asked.last, start_level = asked.start_level,
    method = asked.method,
  }
  local ledger = inputs.hinted(asked.weather, pond.run, pond, weather, options)
  local job = {
    pond = pond, weather = weather, ledger = ledger, facts = pond:facts(),
    totals = ledger:totals(), weeks = ledger:weeks(), months = ledger:months(),
    years = ledger:years(), report = ledger:report(),
  }
  job.band = run_band(pond, weather, options, job.report.method)
  options.method = asked.method
  if job.facts.intake then
    options.start_level = nil
    job.endurance = pond:endurance(weather, options)
  end
  return job
end

-- Rows that cover a whole week, month or year.
local function whole(rows)
  local out = {}
  for _, row in ipairs(rows) do
    if row.complete then out[#out + 1] = row end
  end
  return out
end

-- ---- the report --------------------------------------------------------------

local function price(job)
  local costs = job.pond:description().costs
  if not costs or not (costs.water or costs.sewer) then return nil end
  return (costs.water or 0) + (costs.sewer or 0), costs.currency or ""
end

local function money(job, volume)
  local each, currency = price(job)
  return each and ("%s %s"):format(text.number(volume * each, 2), currency) or nil
end

local function put_answer(job, view)
  local t, years = job.totals, job.totals.days / 365.25
  local lows, highs = t.topup, t.topup
  for _, other in ipairs(job.band) do
    lows = math.min(lows, other.totals.topup)
    highs = math.max(highs, other.totals.topup)
  end
  local a_week = 7 / t.days
  local paid = money(job, t.topup)
  local lines = {
    ("From %s to %s (%d days) this pond takes %s of top-up water, %s a week on average%s.")
      :format(t.first, t.last, t.days, view:show("volume", t.topup),
              view:show("volume", t.topup * a_week), paid and ", " .. paid .. " in all" or ""),
  }
  if #job.band > 0 then
    lines[#lines + 1] = ("The methods that this weather allows stand between %s a week: take the figure as an estimate, not a measurement.")
      :format(view:range("volume", lows * a_week, highs * a_week))
  end
  if years >= 3 then
    local each = stats.pick(whole(job.years), "topup")
    if #each >= 3 then
      lines[#lines + 1] = ("Of its %d whole years the middle one takes %s, a dry one (P90) %s.")
        :format(#each, view:show("volume", stats.percentile(each, 50)),
                view:show("volume", stats.percentile(each, 90)))
    end
  end
  for _, line in ipairs(lines) do io.write(text.wrap(line)) end
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

local function put_weeks(job, view)
  local weeks = job.weeks
  io.write(text.heading("Week by week"))
  local rows = {}
  for i, week in ipairs(weeks) do
    rows[i] = balance_row(("%d-W%02d %s"):format(week.week_year, week.week, week.complete and "" or "(part)"),
      week, job, view)
  end
  local _, currency = price(job)
  io.write(text.table(balance_heads("Week", view, currency), rows))
  io.write(text.wrap("Drop at the ruler: how far the losses alone would lower the level. Weeks begin on Monday (ISO 8601)."))
end

-- A figure for each of the 52 weeks of the year, over the years.
local function put_typical_weeks(job, view)
  local by_week = {}
  for _, week in ipairs(whole(job.weeks)) do
    local n = week.week
    by_week[n] = by_week[n] or {}
    table.insert(by_week[n], week)
  end
  io.write(text.heading("The weeks of a year, over all years"))
  local rows, bars = {}, {}
  for n = 1, 52 do
    local list = by_week[n]
    if list then
      local topup = stats.pick(list, "topup")
      local p10, p50, p90 = stats.percentile(topup, 10), stats.percentile(topup, 50), stats.percentile(topup, 90)
      local mean = stats.mean(topup)
      local drop = stats.pick(list, "drop_mm")
      rows[#rows + 1] = {
        ("W%02d from %s"):format(n, list[#list].first:sub(6)), tostring(#list),
        view:cell("volume", p10), view:cell("volume", p50), view:cell("volume", p90), view:cell("volume", mean),
        view:cell("depth", stats.percentile(drop, 50) / 1000),
        view:cell("depth", stats.percentile(drop, 90) / 1000),
      }
      bars[#bars + 1] = { ("W%02d"):format(n), mean, view:show("volume", mean) }
    end
  end
  local v, d = "\n" .. view:unit("volume"), "\n" .. view:unit("depth")
  io.write(text.table({ "\nWeek", "\nYears", "Top-up\nP10" .. v, "\nP50" .. v, "\nP90" .. v, "\nmean" .. v,
    "Drop\nP50" .. d, "\nP90" .. d }, rows))
  io.write(text.wrap("P10, P50, P90: in one year of ten, five of ten, nine of ten it is less. --all-weeks lists every week."))
  io.write(text.heading("Mean top-up of each week"), text.bars(bars))
end

local function put_week_bars(job, view)
  local bars = {}
  for i, week in ipairs(job.weeks) do
    bars[i] = { ("%d-W%02d"):format(week.week_year, week.week), week.topup, view:show("volume", week.topup) }
  end
  io.write(text.heading("Top-up by week"), text.bars(bars))
end

local function put_months(job, view)
  local _, currency = price(job)
  local rows, many = {}, #job.months > 14
  io.write(text.heading(many and "Month by month, mean of the years" or "Month by month"))
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
  io.write(text.table(balance_heads("Month", view, currency), rows))
end

local function put_years(job, view)
  local years = whole(job.years)
  if #years < 2 then return end
  io.write(text.heading("Year by year"))
  local _, currency = price(job)
  local rows = {}
  for i, year in ipairs(years) do rows[i] = balance_row(tostring(year.year), year, job, view) end
  io.write(text.table(balance_heads("Year", view, currency), rows))
  if #years < 3 then return end
  local peaks, topup = {}, stats.pick(years, "topup")
  local peak_of = {}
  for _, week in ipairs(whole(job.weeks)) do
    peak_of[week.year] = math.max(peak_of[week.year] or 0, week.topup)
  end
  for _, year in ipairs(years) do peaks[#peaks + 1] = peak_of[year.year] or 0 end
  io.write("\n", text.table({ "\nOver the years", "P10\n" .. view:unit("volume"), "P50\n" .. view:unit("volume"),
    "P90\n" .. view:unit("volume") }, {
    { "Top-up of a year", view:cell("volume", stats.percentile(topup, 10)),
      view:cell("volume", stats.percentile(topup, 50)), view:cell("volume", stats.percentile(topup, 90)) },
    { "Its greatest week", view:cell("volume", stats.percentile(peaks, 10)),
      view:cell("volume", stats.percentile(peaks, 50)), view:cell("volume", stats.percentile(peaks, 90)) },
  }))
  if #years < 10 then
    io.write(text.wrap(("Only %d whole years: the percentiles are rough.") :format(#years)))
  end
end

local function put_band(job, view)
  if #job.band == 0 then return end
  io.write(text.heading("One figure and its band"))
  local weeks = job.totals.days / 7
  local rows = { { job.report.title .. " (this report)", view:cell("volume", job.totals.topup / weeks) } }
  for _, other in ipairs(job.band) do
    rows[#rows + 1] = { other.report.title, view:cell("volume", other.totals.topup / weeks) }
  end
  io.write(text.table({ "\nMethod of evaporation", "Top-up a week\n" .. view:unit("volume") }, rows))
end

-- ---- the questions beside ------------------------------------------------------

local function put_pond(job, view)
  local f, basin = job.facts, job.pond:basin()
  local at = f.target or f.trigger or f.lip
  io.write(text.heading("The pond"))
  local an_inch = view.name == "us" and tarn.units.inch or tarn.units.cm
  local rows = {
    { "Water at the lip", view:show("volume", f.lip_volume) },
    { "Water surface at the lip", view:show("area", f.lip_area) },
    { "One " .. (view.name == "us" and "inch" or "centimetre") .. " at the " .. (f.target and "target" or "lip"),
      view:show("volume", basin:area(at) * an_inch) },
    { "Bed, stream and pond: the level falls this many times the open water's loss", ("%.2f"):format(f.fall_ratio) },
    { "Held above the pond while the pump runs", view:show("volume", f.transit) },
  }
  for _, row in ipairs(rows) do io.write(text.wrap(row[1] .. ": " .. row[2], "- ")) end
end

local function put_pump(job, view)
  local f = job.facts
  local at = f.target or f.trigger or f.lip
  local swing = job.pond:swing(at)
  io.write(text.heading("When the pump stops and starts"))
  io.write(text.wrap(("Running and at %s, a stop lets %s come back: the level rises %s%s. A start pulls it down as far.")
    :format(f.target and "the target level" or "the level where top-up ends", view:show("volume", f.transit),
            view:show("depth", swing.stopped - at),
            swing.spill > 0 and (", and %s runs over the lip"):format(view:show("volume", swing.spill))
              or (", and %s are left to the lip"):format(view:show("depth", f.lip - swing.stopped)))))
  local w = job.pond:works()
  local solved = {}
  for _, part in ipairs { { "bed_from", "over the bed's lip" }, { "stream_from", "in the stream" }, { "drain_from", "in the pipes" } } do
    if w[part[1]] == "solved" then solved[#solved + 1] = part[2] end
  end
  if #solved > 0 then
    io.write(text.wrap(("Worked out from flow, lips and pipes: the water %s."):format(table.concat(solved, ", "))))
  end
  if job.facts.transit == 0 then
    io.write(text.wrap("Nothing is described as held above the pond (bed.head, stream.depth, pump.drainback; or a pump with pipes and falls): measure the rise once."))
  end
end

-- Days to the intake by month of leaving. Only starts with 'horizon' days of
-- weather after them count, so that those near its end do not bend the figures;
-- what lasts longer counts as longer.
local function put_endurance(job, view)
  if not job.endurance then return end
  local f, by_month = job.facts, {}
  local horizon = math.min(365, #job.endurance // 2)
  for i = 1, #job.endurance - horizon + 1 do
    local month = tonumber(job.days[i].date:sub(6, 7))
    by_month[month] = by_month[month] or {}
    table.insert(by_month[month], math.min(job.endurance[i] or math.huge, horizon + 1))
  end
  local rows = {}
  local function cell(list, p)
    local days = stats.percentile(list, p)
    return days > horizon and "over " .. horizon or text.number(days)
  end
  for month = 1, 12 do
    local list = by_month[month]
    if list then
      rows[#rows + 1] = { MONTHS[month], tostring(#list), cell(list, 0), cell(list, 10), cell(list, 50) }
    end
  end
  io.write(text.heading("Away from home: days until the intake is exposed, without top-up"))
  io.write(text.table({ "Leaving in", "Starts", "Worst", "P10", "P50" }, rows))
  io.write(text.wrap(("From the %s down to the intake: %s. In one start of ten it takes fewer days than P10. Splash, wind and a leak shorten it.")
    :format(f.target and "target" or "lip", view:show("depth", (f.target or f.trigger or f.lip) - f.intake))))
end

local function put_assumptions(job, view)
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
  if (f.wetted - f.lip_area - f.bed_area) > 1e-9 then
    add("Stream and falls evaporate %.2g times as much as still water%s.", f.stream_factor,
      (d.stream and d.stream.factor) and "" or " (default; 1.4 to 1.7 was measured on disturbed pools)")
  end
  if not (d.pump and d.pump.hours) then add("The pump runs all day, all year.") end
  if not f.trigger then add("No top-up is described (no trigger level).")
  elseif not d.supply then add("The supply gives as much as is wanted, on any day.") end
  add("On the first morning the level stands at %s.", view:level(job.totals.start_level))
  add("The ledger closes to %.0e of the water turned over.", job.totals.residual)
  io.write(text.heading("Method and assumptions"), text.list(list))
end

local function put_warnings(job, view)
  local t, list = job.totals, {}
  local function add(...) list[#list + 1] = string.format(...) end
  if t.refused > 0 then add("On %d days top-up was wanted and not allowed.", t.refused) end
  if t.unmet > 1e-9 then add("Top-up wanted and not given: %s.", view:show("volume", t.unmet)) end
  if t.starved > 0 then add("On %d days the pond held too little water to start its pump.", t.starved) end
  if t.under_intake > 0 then add("On %d days the level ended under the intake.", t.under_intake) end
  if t.dry > 0 then add("On %d days a loss found no water: %s in all.", t.dry, view:show("volume", t.shortfall)) end
  if #list > 0 then io.write(text.heading("Take note"), text.list(list)) end
end

local function put_cautions()
  io.write(text.heading("Cautions"), text.list {
    "An estimate from weather and sizes; a meter and a ruler on the pond itself are better. From weather alone nobody can say that a pond leaks.",
    "Fill through an air gap or an approved backflow preventer: pond water must never reach drinking water. Local plumbing codes rule.",
    "Tap water holds chlorine or chloramine: fish stand small, slow additions best; ask your supplier what it uses.",
    "Deep water is a danger to children, and pumps to all if their wiring is not protected: follow local codes and leave electrical work to licensed people.",
  })
end

-- ---- the ledger as a file -------------------------------------------------------

local FLOWS = { "rain", "runoff", "tank", "topup", "evaporation", "bed", "stream", "splash", "seepage",
  "withdrawal", "overflow", "shortfall", "unmet" }

local function csv_of(job)
  local heads = { "date", "rain_mm", "open_water_mm", "grass_mm", "level_m", "area_m2", "pond_m3", "held_m3",
    "rain_tank_m3", "pump_running" }
  for _, name in ipairs(FLOWS) do heads[#heads + 1] = name .. "_m3" end
  for _, name in ipairs(FLOWS) do heads[#heads + 1] = name .. "_lip_mm" end
  local out = { table.concat(heads, ",") }
  for _, day in ipairs(job.days) do
    local cells = { day.date }
    for _, key in ipairs { "rain_mm", "open_water_mm", "grass_mm", "level", "area", "volume", "held", "in_tank" } do
      cells[#cells + 1] = ("%.9g"):format(day[key])
    end
    cells[#cells + 1] = day.running and "1" or "0"
    for _, name in ipairs(FLOWS) do cells[#cells + 1] = ("%.9g"):format(day[name]) end
    for _, name in ipairs(FLOWS) do cells[#cells + 1] = ("%.9g"):format(job.ledger:depth(day[name])) end
    out[#out + 1] = table.concat(cells, ",")
  end
  return table.concat(out, "\n") .. "\n"
end

-- ---- main -------------------------------------------------------------------------

local asked = args.read(spec)
local view = view_of(asked.units or "us")
local pond, description = inputs.pond(asked.pond)
local weather = inputs.weather(asked.weather, asked)
local job = compute(pond, weather, asked)
job.days = job.ledger:days()
if asked.csv then tarn.write_file(asked.csv, csv_of(job)) end

io.write(description.name or asked.pond, "\n", ("="):rep(utf8.len(description.name or asked.pond) or 20), "\n")
put_answer(job, view)
put_warnings(job, view)
if #job.weeks <= WEEKS_LISTED or asked.all_weeks then
  put_weeks(job, view)
  if #job.weeks <= WEEKS_LISTED then put_week_bars(job, view) end
end
if #job.weeks > WEEKS_LISTED then put_typical_weeks(job, view) end
put_months(job, view)
put_years(job, view)
put_band(job, view)
put_pond(job, view)
put_pump(job, view)
put_endurance(job, view)
put_assumptions(job, view)
put_cautions()
if asked.csv then io.write("\nThe daily ledger is in ", asked.csv, "\n") end

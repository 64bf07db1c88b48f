-- SPDX-License-Identifier: MIT
-- The top-up report: the questions of a year, each answered by a run of a pond with one thing changed.
local inputs = require "common.inputs"
local money = require "common.money"
local text = require "common.text"

local questions = {}
local u = tarn.units

local TANKS = { us = { 50, 100, 250, 500, 1000 }, metric = { 200, 500, 1000, 2000, 4000 } }      -- gal, L
local SAIL = 0.5              -- share of the sun that a shade sail leaves; our own

local function copy(t)
  local out = {}
  for key, value in pairs(t) do out[key] = type(value) == "table" and copy(value) or value end
  return out
end

-- Top-up from the mains a year with a change of the description; nil where such a pond cannot be.
local function a_year(job, change)
  local d = copy(job.pond:description())
  change(d)
  local made, pond = inputs.tried(tarn.pond, d)
  local ran, ledger = inputs.tried(made and pond.run or error, pond, job.weather, job.run_options)
  if not ran then return nil end
  local t = ledger:totals()
  return t.topup / t.days * 365.25, t
end

-- "120 US gal a year (12 %)"
local function saved(job, now, view)
  local by = job.season.a_year - now
  return ("%s a year (%.0f %% of the top-up)"):format(view:show("volume", by), 100 * by / job.season.a_year)
end

-- ---- filling, saving -------------------------------------------------------------------

local function first_fill(job, view)
  local d, volume = job.pond:description(), job.facts.full_volume
  local rate = d.supply and d.supply.rate
  return ("First fill: up to %s of basin, less the stone in it%s%s. Read the water meter before and after: the difference is the pond's volume, better than any tape. Condition the water by the label before fish or plants go in."):format(
    view:show("volume", volume), rate and rate > 0 and (", %s h with the valve wide open"):format(text.number(volume / rate / 3600, 1)) or "",
    money.behind(d, volume))
end

local function savings(job, view)
  local list, f, place = {}, job.facts, job.pond:place()
  if not (job.season.a_year > 0) then return list end
  local step = view.name == "us" and { "inch", u.inch } or { "2 cm", 2 * u.cm }
  local lower = f.trigger and a_year(job, function(d)
    d.trigger = f.trigger - step[2]
    d.target = (f.target or f.trigger) - step[2]
  end)
  if lower and (not f.intake or f.trigger - step[2] > f.intake) then
    list[#list + 1] = ("Topping up %s lower, so that more rain finds room, saves %s."):format(
      view.name == "us" and "one " .. step[1] or step[1], saved(job, lower, view))
  end
  local sail = a_year(job, function(d)
    d.evaporation = d.evaporation or {}
    d.evaporation.shade = SAIL * place.shade
  end)
  if sail then
    list[#list + 1] = ("A sail or a tree that takes half of the sun saves %s."):format(saved(job, sail, view))
  end
  return list
end

local function winter(job)
  local e = job.pond:description().evaporation or {}
  local f = tarn.frost(job.weather, (e.latitude or job.weather:site().latitude or 1) < 0)
  if not f or not f.first then return nil end
  return ("Frost came from %s (earliest) to %s (latest): before the first, drain pipes and valve; after the last, fill to the target and start."):format(
    f.first, f.last)
end

-- ---- away, the meter ---------------------------------------------------------------------

local FORTNIGHT = 14          -- days

-- Months in which the intake is bare before two weeks are over, in one start of ten.
local function two_weeks(job)
  local short, known = {}, 0
  for _, m in ipairs(job.absence and job.absence.months or {}) do
    if m.p10 then
      known = known + 1
      if m.p10 < FORTNIGHT then short[#short + 1] = text.months[m.month] end
    end
  end
  if known == 0 then return nil end
  return ("Away for two weeks without top-up%s: %s."):format(job.from and ", from today's level" or "", #short == 0 and
    "the water lasts in nine starts of ten, in every month" or
    ("in one start of ten the intake is bare before, in %s"):format(table.concat(short, ", ")))
end

-- What passes the fill line's meter in the month that takes most.
local function dial(job, view)
  local f = job.forecast
  for _, m in ipairs(f and f.peak and f.months or {}) do
    if m.month == f.peak_month and m.week.p90 and m.week.p90 > 0 then
      return ("The meter's small dial stands still while no tap runs and the fill valve is shut: if it turns, water is lost on the way. In %s the fill takes %s a day on average, and one week in ten more than %s in all%s: a week that takes more, rain or not, tells of a valve that sticks, or of water lost."):format(
        f.peak_name, view:show("volume", f.peak.p50 / 7), view:show("volume", m.week.p90),
        job.facts.fill > 0 and (", in steps of %s"):format(view:show("volume", job.facts.fill)) or "")
    end
  end
end

-- ---- rules on water use -------------------------------------------------------------------

-- { words, supply's fields } of rules that are met often; what the description rules already is left alone.
local function rules_of(job)
  local list, supply = {}, job.pond:description().supply or {}
  if not supply.weekdays then list[1] = { "Tuesdays and Saturdays", { weekdays = { "tue", "sat" } } } end
  local peak = job.forecast and job.forecast.peak_month
  if peak and not supply.months then
    local before, after, others = (peak - 2) % 12 + 1, peak % 12 + 1, {}
    for month = 1, 12 do
      if month ~= before and month ~= peak and month ~= after then others[#others + 1] = month end
    end
    list[#list + 1] = { ("None in %s to %s"):format(text.months[before], text.months[after]), { months = others } }
  end
  return list
end

local function put_rules(page, job, view)
  local f, rows = job.facts, {}
  if not f.trigger or not (job.season.a_year > 0) then return end
  local function add(words, fields)
    local mains, t = a_year(job, function(d)
      d.supply = d.supply or {}
      for key, value in pairs(fields) do d.supply[key] = value end
    end)
    if not mains then return end
    local function yearly(days) return text.number(days / t.days * 365.25, days > 0 and 1 or 0) end
    rows[#rows + 1] = { words, view:cell("volume", mains), yearly(t.refused), view:cell("depth", f.overflow_level - t.lowest_level),
      f.intake and yearly(t.under_intake) or "-" }
  end
  add("As described", {})
  for _, rule in ipairs(rules_of(job)) do add(rule[1], rule[2]) end
  if #rows < 2 then return end
  page:table({ "\n\nTop-up allowed", "Top-up\na year\n" .. view:unit("volume"), "Days\nrefused\na year", "Lowest,\nunder full\n" ..
    view:unit("depth"), "Days under\nthe intake\na year" }, rows)
  page:paragraph("Rules on water use differ from place to place: look yours up. `tarn whatif` tries others (supply.weekdays, supply.months, supply.closed).")
end

-- ---- a rain tank ------------------------------------------------------------------------

-- Area and coefficient of the roof that is described for a tank, or of roofs among the catchments.
local function roof_of(d)
  if d.tank and d.tank.roof and d.tank.roof > 0 then return d.tank.roof, d.tank.coefficient, "tank.roof" end
  local area, names = 0, {}
  for _, c in ipairs(d.catchments or {}) do
    if (c.name or ""):lower():find "roof" then area, names[#names + 1] = area + c.area, c.name end
  end
  if area > 0 then return area, nil, table.concat(names, ", ") end
end

local function put_tank(page, job, view)
  local roof, coefficient, name = roof_of(job.pond:description())
  if not roof or not (job.season.a_year > 0) then return end
  local rows = {}
  local function with(capacity)
    return a_year(job, function(d)
      d.tank = d.tank or {}
      d.tank.roof, d.tank.coefficient, d.tank.capacity, d.tank.start = roof, coefficient, capacity, nil
    end)
  end
  local none = with(0)
  if not none or none <= 0 then return end
  for _, size in ipairs(TANKS[view.name]) do
    local capacity = size * (view.name == "us" and u.gal or u.liter)
    local mains, t = with(capacity)
    if mains then
      rows[#rows + 1] = { view:show("volume", capacity), view:cell("volume", mains), view:cell("volume", none - mains),
        ("%.0f %%"):format(100 * (none - mains) / none), view:cell("volume", t.tank_spill / t.days * 365.25) }
    end
  end
  local v = "\n" .. view:unit("volume")
  page:table({ "\nRain tank", "Mains\na year" .. v, "Saved\na year" .. v, "\nShare\nsaved", "Spilled\na year" .. v }, rows)
  page:paragraph("On %s of roof (%s); the tank begins empty. Roof water carries what lies on the roof: no drinking water, and a first flush let go.",
    view:show("area", roof), name)
end

-- ---- the chapter --------------------------------------------------------------------------

function questions.put(page, job, view)
  local list = { first_fill(job, view) }
  table.move(savings(job, view), 1, 9, 2, list)
  list[#list + 1] = two_weeks(job)
  list[#list + 1] = dial(job, view)
  list[#list + 1] = winter(job)
  page:heading("Questions of a year")
  page:list(list)
  put_rules(page, job, view)
  put_tank(page, job, view)
end

return questions

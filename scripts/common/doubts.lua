-- SPDX-License-Identifier: MIT
-- What cannot well be so in a weather file or in a description, in words: the
-- first lines of every report that rests on it.
local args = require "common.args"
local climate = require "common.climate"
local findings = require "common.findings"
local inputs = require "common.inputs"
local text = require "common.text"

local doubts = {}

local SWAPS = {
  inch_as_mm = "Are inches taken for mm?",
  mm_as_inch = "Are mm taken for inches?",
  tenths_as_mm = "Are tenths of a mm taken for mm?",
  f_as_c = "Is Fahrenheit taken for Celsius?",
  c_as_f = "Is Celsius taken for Fahrenheit?",
  kmh_as_ms = "Are km/h taken for m/s?",
  kwh_as_mj = "Are kWh taken for MJ?",
}

local WHAT = { rain = "rain of a year", tmax = "mean temperature", tmean = "mean temperature", wind = "mean wind",
  solar = "mean sun of a day", sunshine = "mean sunshine of a day" }

-- A value of a column in the reader's unit; 'unit' is the column's own.
local function shown(view, column, unit, x)
  if column == "rain" then return view:show("rain", x) end
  if unit == "deg C" then return view:temp(x) end
  if column == "wind" and view.name == "us" then return ("%.1f mph"):format(x / tarn.units.mph) end
  return ("%.3g %s"):format(x, unit)
end

-- What may be wrong, in one sentence.
local function sentence(d, unit, view)
  local function show(x) return shown(view, d.column, unit, x) end
  if d.kind == "sentinel" then
    return ("%s is %.6g %s on %s, the first on %s, and all else lies from %.4g to %.4g: a code for a missing value? Say "
      .. "missing = { ... } in a --map file (docs/methods/weather.md)."):format(d.column, d.value, unit,
      d.days == 1 and "1 day" or d.days .. " days", d.first, d.low, d.high)
  end
  local swap = d.swap and SWAPS[d.swap] or "Is the unit right, and the place?"
  if d.kind == "light" then
    return ("a day with rain has %.2f mm in the mean, less than anywhere. %s"):format(d.value, swap)
  end
  return ("%s is %s, where %s to %s are plausible. %s"):format(WHAT[d.column], show(d.value), show(d.low), show(d.high), swap)
end

local function days(n) return n == 1 and "1 day" or text.number(n) .. " days" end

-- Columns of a list that lack days, "rain on 1 day"; nil: none does.
local function lacking(names, missing)
  local out = {}
  for _, name in ipairs(names) do
    if (missing(name) or 0) > 0 then out[#out + 1] = ("%s on %s"):format(name, days(missing(name))) end
  end
  return out[1] and table.concat(out, ", ")
end

-- Other options that run another number of days, tried: { { words, command } ... }.
local function others(made)
  local out, done = {}, made.done
  local function try(name, value, changes, more)
    local other, command = made.try(changes), args.again(name, value)
    if other and command and other.days ~= done.days then out[#out + 1] = { days(other.days) .. more, command } end
  end
  local dry = ", those without rain taken as dry, which understates the rain"
  if not made.stretch then
    for _, rule in ipairs { "most", "all", "stretch" } do
      if rule ~= made.rule and (rule ~= "all" or done.missing.rain) then
        try("years", rule, { years = rule }, rule == "all" and dry or rule == "stretch" and " without a gap" or "")
      end
    end
  elseif done.missing.rain then
    try("dry-gaps", nil, { dry_gaps = true }, dry)
  end
  if done.missing.tmin or done.missing.tmax then
    try("bridge", "31", { bridge = 31 }, ", gaps of temperature of up to 31 days bridged")
  end
  return out
end

local RULES = {
  most = "all calendar years that lack nothing, or the longest stretch without a gap where that has more days",
  complete = "calendar years of which no day lacks anything, is bridged or is estimated",
  all = "days without a rain reading are dry; all calendar years that lack nothing else, or the longest stretch without a gap where that has more days",
}

-- What a weather lacks, so that some of its days are not run, and by which rule.
local function left_out(made)
  local done = made.done
  local lacks = lacking({ "rain", "tmin", "tmax", "pan", "reference", "open_water" }, function(name) return done.missing[name] end)
  local said = lacks and ("The weather file lacks %s."):format(lacks) or
    ("Of the weather file %s bridged, and %s humidity, sun or wind."):format(days(done.bridged) .. (done.bridged == 1 and " is" or " are"),
      days(done.estimated) .. (done.estimated == 1 and " lacks" or " lack"))
  local rule = made.stretch and "This command goes day by day and runs the longest stretch without a gap" or
    made.rule == "stretch" and "The rule of years is 'stretch', the longest one without a gap" or
    ("The rule of years is '%s' (%s)"):format(made.rule, RULES[made.rule])
  local out = done.stretch and ("%s to %s, %s; %s left out"):format(done.first, done.last, days(done.days),
      days(done.left_out) .. (done.left_out == 1 and " is" or " are")) or
    ("LEFT OUT: %s, %s; %s are run"):format(done.years_out, days(done.left_out), days(done.days))
  if done.stretch and RULES[made.rule] then out = "here the stretch, " .. out end
  return ("%s %s: %s."):format(said, rule, out)
end

local COLUMNS = { "wind", "solar", "sunshine", "rh_min", "rh_max", "rh_mean", "dewpoint", "vapour" }
local LONG = 365                -- days that are estimated, from which on the other choice is offered: a year, our own

-- Where columns are there in some years only: what a run of the years with all would do; nil elsewhere.
function doubts.complete(weather)
  local made = inputs.made[weather]
  return made and not made.stretch and made.rule ~= "complete" and made.done.estimated >= LONG and made.try { years = "complete" } or nil
end

-- The same in words: what is run, and the command that runs the others.
local function columns(page, weather, made)
  local summary = weather:summary()
  local lacks = lacking(COLUMNS, function(name) return summary[name] and summary[name].missing end)
  local other, command = doubts.complete(weather), args.again("years", "complete")
  if not lacks or not other or not command then return end
  page:paragraph(("Columns are there in some years only: of the days that are run %s is estimated. All years are run, with fewer columns, since that keeps more days, %s. To run the %s of the years with all columns%s (tried):"):format(
    lacks, text.number(made.done.days), days(other.days), other.years_out and ", without " .. other.years_out or ""))
  page:code(command .. "\n")
end

-- Other choices of days where some are left out, or lack columns: the commands that run them, each tried.
function doubts.choices(page, weather)
  local made = inputs.made[weather]
  if not made then return end
  for _, other in ipairs((made.done.left_out > 0 or made.done.filled.rain) and others(made) or {}) do
    page:paragraph(("To run %s (tried):"):format(other[1]))
    page:code(other[2] .. "\n")
  end
  columns(page, weather, made)
end

local PLACES = { "Notes", "Assumptions", "Method and assumptions", "What this rests on" }

-- Adds them to what was found (common.findings).
function doubts.add(list, weather, view)
  local summary, made = weather:summary(), inputs.made[weather]
  for _, line in ipairs(climate.doubts(weather)) do findings.add(list, "doubt", line) end
  if made and made.done.left_out > 0 then findings.add(list, "doubt", left_out(made), PLACES) end
  local dry = made and made.done.filled.rain
  if dry then
    findings.add(list, "doubt", ("%s without a rain reading %s TAKEN AS DRY: the rain is understated by what fell then."):format(days(dry),
      dry == 1 and "is" or "are"), PLACES)
  end
  for _, d in ipairs(weather:doubts()) do
    findings.add(list, "doubt", ("CHECK THE WEATHER FILE: %s Whatever follows rests on it."):format(
      sentence(d, summary[d.column].unit, view)), PLACES)
  end
end

local BARE_SHOWN = 6

local function bare(pond, lines)
  local list, count = pond:bare()
  local costs = pond:description().costs or {}
  for i, b in ipairs(list) do
    if i > BARE_SHOWN then break end
    lines[#lines + 1] = ("%s = %.6g has no unit; it was read as %.6g %s, beside %s, which has one."):format(b.path, b.value,
      b.value, (b.unit:gsub("^money/", (costs.currency or "money"):gsub("%%", "%%%%") .. "/")), b.beside)
  end
  if count > BARE_SHOWN then lines[#lines + 1] = ("%d more numbers have none."):format(count - BARE_SHOWN) end
end

-- Sentences about a description: numbers without a unit whose neighbours have one,
-- a storm that no place has had.
function doubts.of_pond(pond, view)
  local lines, storm = {}, pond:storm_doubt()
  bare(pond, lines)
  if storm then
    lines[#lines + 1] = ("The design storm is %s of rain in %.3g h; the most that was ever measured in %.3g h is %s (%s; WMO archive of "
      .. "extremes). Is its intensity in the right unit, and one that lasts so long?"):format(view:show("rain", storm.depth),
      (pond:description().storm.duration or 3600) / 3600, storm.record_time / 3600, view:show("rain", storm.record), storm.place)
  end
  return lines
end

-- Adds all that is doubtful in a description to what was found: what it says twice, and these.
-- checks: pond:findings(); place: of inputs.pond.
function doubts.add_pond(list, pond, view, checks, place)
  findings.described(list, view, checks, place)
  for _, line in ipairs(doubts.of_pond(pond, view)) do
    findings.add(list, "doubt", "CHECK THE DESCRIPTION: " .. line)
  end
end

return doubts

-- SPDX-License-Identifier: MIT
-- What cannot well be so in a weather file or in a description, in words: the
-- first lines of every report that rests on it.
local climate = require "common.climate"
local findings = require "common.findings"
local inputs = require "common.inputs"

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

-- What a weather lacks, so that some of its days are not run.
local function left_out(weather, done)
  local lacks = {}
  for _, name in ipairs { "rain", "tmin", "tmax", "pan", "reference", "open_water" } do
    local days = done.missing[name]
    if days then lacks[#lacks + 1] = ("%s on %s"):format(name, days == 1 and "1 day" or days .. " days") end
  end
  return ("The weather file lacks %s. Its longest stretch without a gap is used, %s to %s; %d days are left out.%s%s"):format(
    table.concat(lacks, ", "), done.first, done.last, done.left_out,
    done.missing.rain and " --dry-gaps takes days without rain as dry, which understates the rain." or "",
    (done.missing.tmin or done.missing.tmax) and " --bridge DAYS bridges longer gaps of temperature." or "")
end

-- Adds them to what was found (common.findings).
function doubts.add(list, weather, view)
  local summary, done = weather:summary(), inputs.left_out[weather]
  for _, line in ipairs(climate.doubts(weather)) do findings.add(list, "doubt", line) end
  if done then findings.add(list, "doubt", left_out(weather, done), { "Notes", "Assumptions", "Method and assumptions", "What this rests on" }) end
  for _, d in ipairs(weather:doubts()) do
    findings.add(list, "doubt", ("CHECK THE WEATHER FILE: %s Whatever follows rests on it."):format(
      sentence(d, summary[d.column].unit, view)), { "Notes", "Assumptions", "Method and assumptions", "What this rests on" })
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

-- SPDX-License-Identifier: MIT
-- What the page asks of somebody whose weather file is refused: the reason without names of
-- options, and the answers that can be given at once.  An answer is { key, value, words }: the
-- key is an option of the form ("dry-gaps"), else one of a map ("duplicates", "units.solar").
local inputs = require "common.inputs"
local json = require "common.json"

local asks = {}

local MOST_STATIONS = 40
local DATES = { us = "the month first: 1/31/2015", european = "the day first: 31/1/2015", iso = "the year first: 15/1/31" }
local UNITS = {
  standard = "US units (inch, F, mph)", metric = "metric units (mm, C, m/s)", tenths = "tenths of metric units (0.1 mm, 0.1 C)",
}

-- ---- stations ---------------------------------------------------------------

-- The n-th value of a line, without its quotes.
local function value_at(line, n, delimiter)
  local at = 1
  for i = 1, n do
    local quoted, behind = line:match('^%s*"([^"]*)"()', at)
    local stop = line:find(delimiter, behind or at, true) or #line + 1
    if i == n then return quoted or line:sub(at, stop - 1):match "^%s*(.-)%s*$" end
    at = stop + 1
  end
end

-- The stations of a file in the order of their rows.
local function stations(path, file, name)
  local index
  for _, f in ipairs(file.fields) do index = f.name == name and f.index or index end
  if not index then return {} end
  local list, known, n = {}, {}, 0
  for line in io.lines(path) do
    n = n + 1
    local value = n > file.header_line and value_at(line, index, file.delimiter)
    if value and value ~= "" and not known[value] and #list < MOST_STATIONS then
      known[value] = true
      list[#list + 1] = value
    end
  end
  return list
end

-- ---- questions --------------------------------------------------------------

-- Units of a whole file; those that give values which can be are said, where others do not.
local function units_of_file(text, path, _, map)
  local list, fits = {}, inputs.units_that_fit(path, map)
  for i, units in ipairs { "standard", "metric", text:find("tenths", 1, true) and "tenths" } do
    list[i] = { "file-units", units, UNITS[units] }
    for _, fit in ipairs(#fits < 3 and fits or {}) do
      if fit == units then list[i][3] = UNITS[units] .. ": gives values that can be" end
    end
  end
  return list
end

local function date_orders(text)
  local list, offered = {}, text:match "say dates = (.*)"
  for _, order in ipairs { "us", "european", "iso" } do
    if offered:find('"' .. order .. '"', 1, true) then list[#list + 1] = { "dates", order, DATES[order] } end
  end
  return list
end

local function take_station(_, path, file, _, field)
  local list = {}
  for i, station in ipairs(stations(path, file, field)) do list[i] = { "station", station, "take " .. station } end
  return list
end

local function no_value(text)
  local value = text:match '[sS]ay missing = "(.-)" if'
  return value and { { "missing", value, ("%s stands for no value"):format(value) } } or {}
end

local function units_of_column(text)
  local list, column = {}, text:match "(units%.[%w_]+) is"
  for unit in text:match("choose one of (.*)"):gmatch "[^,%s]+" do list[#list + 1] = { column, unit, unit } end
  return list
end

-- A phrase of the refusal, and the answers: a list, or of (text, path, file, map, field).
local QUESTIONS = {
  { "say dates = ", date_orders },
  { "say duplicates = ", { { "duplicates", "first", "take the first row of a date" }, { "duplicates", "last", "take the last row of a date" },
    { "hours", 24, "the rows are the 24 hours of a day" } } },
  { "hours must be given", { { "hours", 24, "a day has 24 rows" } } },
  { 'say order = "sort"', { { "order", "sort", "sort the rows by date" } } },
  { "say station = ", take_station },
  { 'outliers = "missing"', { { "outliers", "missing", "leave such days out" } } },
  { 'say decimal = ","', { { "decimal", ",", "the comma is a decimal point" } } },
  { "say missing = ", no_value }, { "Say missing = ", no_value },
  { "units must be given", units_of_file }, { "carries no unit", units_of_file },
  { "the file does not say it: choose one of", units_of_column },
  { 'rain = "zero"', { { "dry-gaps", true, "take days without a reading of rain as dry" } } },
  { "bridge longer gaps", { { "bridge", "31", "bridge gaps of up to 31 days, but of rain" } } },
}

-- To do where no answer of one click is enough; with a field: instead of the reason.
local ADVICE = {
  { "the place is not known", "Where is the weather station? Enter its latitude, and the elevation and height of the wind gauge as far as you know them.", field = "evaporation.latitude" },
  { "is the second column for", "Say of one of them, in the table below, that it is not used." },
  { "in the row of units", "Choose its unit in the table below." },
  { "a column must have one", "Choose its unit in the table below." },
  { "carries no unit", "Choose units in the table below, or here for all columns at once." },
  { "is not in the weather", "If a column of the file has it, choose it in the table below." },
  { "not like a header", "Write a line of headings above it, as date,tmin_c,tmax_c,rain_mm, and drop the file again." },
  { "no column was taken for rain", "If a column of the file has it, choose it in the table below." },
}

-- The reason alone, as far as it is no advice for a map or a command line.
local BEHIND = { "; if it is one of those ", "%s[sS]ay%s+[%w_]+%s*=", "%s[sS]ay%s+which one", "%s*bridge longer gaps",
  ": give it a column", ": choose one of", ": if the comma is" }

local function reason(text)
  local values = text:match "; its first %d+ values.*" or ""
  for _, phrase in ipairs(BEHIND) do
    local at = text:find(phrase)
    text = at and text:sub(1, at - 1) or text
  end
  text = text:gsub("%s*%(%-%-[^()]*%)%s*$", ""):gsub("%-%-(%a[%w-]*)", "%1"):gsub("[,;:]?%s+or$", ""):gsub("[%s,;:]+$", "")
  return text .. (text:find(values, 1, true) and "" or values)
end

-- Words about a refusal, a list of answers, and the field that it is about; text: the refusal
-- without the file's name; field: as the program has it.
function asks.of(text, path, file, map, field)
  local words, answers = reason(text), {}
  for _, q in ipairs(QUESTIONS) do
    if file and text:find(q[1], 1, true) then
      local list = type(q[2]) == "table" and q[2] or q[2](text, path, file, map, field)
      table.move(list, 1, #list, #answers + 1, answers)
    end
  end
  for _, a in ipairs(ADVICE) do
    if text:find(a[1], 1, true) then
      words, field = a.field and a[2] or ("%s. %s"):format(words, a[2]), a.field or field
    end
  end
  return words, json.list(answers), field
end

return asks

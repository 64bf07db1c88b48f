-- SPDX-License-Identifier: MIT
-- Pond and weather from the command line: options shared by all scripts.
local answers = require "common.answers"
local climate = require "common.climate"

local inputs = {}

-- Methods of evaporation, by their names in a description.
local function methods()
  for _, section in ipairs(tarn.pond_fields()) do
    for _, row in ipairs(section.section == "evaporation" and section or {}) do
      if row.name == "method" then return row.choices end
    end
  end
end

inputs.method_option = { name = "method", value = "NAME", offers = methods, meaning = "evaporation method (auto)" }

inputs.YEARS = "most"         -- the rule where none is asked for

inputs.weather_options = {
  { name = "with", value = "FILE", joined = true, meaning = "more of the same station: other columns, other years; several with commas" },
  { name = "map", value = "FILE", meaning = "Lua table that says where the columns stand" },
  { name = "layout", value = "NAME", meaning = "layout of the file, if not recognised" },
  { name = "column", value = "NAME=HEADER", joined = true, meaning = "of a column that is not found, as tmin=Low or date=Day; several with commas" },
  { name = "file-units", value = "NAME", meaning = "units in a file that does not carry them: standard, metric" },
  { name = "unit", value = "NAME=UNIT", joined = true, meaning = "of a column that does not say it, as rain=mm; several with commas" },
  { name = "dates", value = "NAME", choices = { "iso", "us", "european" }, meaning = "order in the file's dates: year first, month first, day first" },
  { name = "decimal", value = "SIGN", choices = { ".", "," }, meaning = "of the file's numbers: point or comma" },
  { name = "missing", value = "TEXT", joined = true, meaning = "that stands for no value, as n/a; several with commas" },
  { name = "station", value = "ID", meaning = "of several in the file, the one to be read" },
  { name = "duplicates", value = "first|last", choices = { "first", "last" }, meaning = "of rows for the same day, the one that counts" },
  { name = "order", value = "sort", choices = { "sort" }, meaning = "put rows in the order of their dates" },
  { name = "outliers", value = "missing", choices = { "missing" }, meaning = "take values that cannot be as missing" },
  { name = "stamps", value = "begin|end", choices = { "begin", "end" }, meaning = "of its interval, that the time of an hourly row is" },
  { name = "hour-shift", value = "HOURS", kind = "number", meaning = "added to the time of hourly rows, as -8 from UTC to local" },
  { name = "totals", value = "NAME", choices = { "spread", "last" }, meaning = "rain totals of several days: over them, or on the last" },
  { name = "latitude", value = "DEG", kind = "number", meaning = "of the station, north positive" },
  { name = "elevation", value = "LENGTH", kind = "length", meaning = "of the station, as '400 ft' or 122, which is m" },
  { name = "wind-height", value = "LENGTH", kind = "length", meaning = "height of the wind gauge, as '30 ft' or 9.1, which is m" },
  { name = "first", value = "DATE", meaning = "first day, YYYY-MM-DD: all before it is left aside" },
  { name = "last", value = "DATE", meaning = "last day" },
  { name = "bridge", value = "DAYS", kind = "number", meaning = "bridge gaps of up to so many days, never rain (3 in tmin and tmax, else 0)" },
  { name = "dry-gaps", meaning = "take days without a rain reading as dry" },
}

function inputs.with_weather(options)
  return table.move(inputs.weather_options, 1, #inputs.weather_options, #options + 1, options)
end

-- The same for those who can do without some years; the others run a stretch of days.
function inputs.with_years(options)
  options[#options + 1] = { name = "years", value = "NAME", choices = { "most", "complete", "all", "stretch" },
    meaning = "to run: most (without a day that lacks something), complete (nor one bridged or estimated), all (no rain reading: dry), stretch (most)" }
  return inputs.with_weather(options)
end

local function line_at(source, place)
  local _, breaks = source:sub(1, place - 1):gsub("\n", "")
  return breaks + 1
end

-- Where the text first has a name, in which no character is special.
local function mention(source, name)
  local at = source:find(name, 1, true) or source:find(name:match("^%w+%.(.+)$") or name, 1, true)
  return at and line_at(source, at)
end

-- Where the bracket at a place of the text is closed; nil: nowhere.  The text is gone
-- through once, whatever it holds: "%b{}" would begin anew at every bracket.
local function closed_at(source, open)
  local opening = source:sub(open, open)
  local depth = 0
  for at, bracket in source:gmatch(opening == "{" and "()([{}])" or "()([%[%]])", open) do
    depth = depth + (bracket == opening and 1 or -1)
    if depth == 0 then return at end
  end
end

-- Block in braces that 'name =' opens between two places of the text.
local function block(source, name, from, to)
  local at = source:find("%f[%w_]" .. name:gsub("%W", "%%%0") .. '"?%s*[=:]%s*[{[]', from)
  if not at or at > to then return nil end
  local open = source:find("[{[]", at)
  local close = closed_at(source, open)
  if close then return open, close end
end

-- The n-th table of a list of tables between two places.
local function entry(source, n, from, to)
  local open, close = from, from
  for _ = 1, n do
    open = source:find("{", close + 1, true)
    close = open and closed_at(source, open)
    if not close or close > to then return nil end
  end
  return open, close
end

-- Line of a field in the text of a description, where it can be told: the
-- only line that sets it, within its section (and entry of a list:
-- "bed.layers[2].porosity"), else the line where that begins.  A name that no
-- field can have is looked for as it is, never taken for a pattern.
local function line_of(source, name)
  if not name:find("^[%a_][%w_]*[%w_.%[%]]*$") then return mention(source, name) end
  local from, to = 1, #source
  local section, rest = name:match("^(%w+)%.(.+)$")
  if section then
    from, to = block(source, section, 1, #source)
    if not from then return nil end
  end
  local list, n, field = (rest or name):match("^(%w+)%[(%d+)%]%.?([%w_]*)")
  if list then
    from, to = block(source, list, from, to)
    if from then from, to = entry(source, tonumber(n), from, to) end
    if not from then return nil end
  else
    field = (rest or name):match("^[%w_]+")
  end
  local found
  for at, code in source:sub(from, to):gmatch("()([^\n]+)") do
    if code:gsub("%-%-.*$", ""):find("%f[%w_]" .. field .. '"?%s*[=:]') then
      if found and not list then return section and line_at(source, from) or nil end
      found = found or line_at(source, from + at - 1)
    end
  end
  if not found and not section and not list then from = block(source, name, 1, #source) end
  return found or from and line_at(source, from)
end

-- pcall, but a want of memory is nobody's mistake: it goes on up.
function inputs.tried(f, ...)
  local result = table.pack(pcall(f, ...))
  local why = result[2]
  if not result[1] and (why == "not enough memory" or why == "out of memory") then error(why, 0) end
  return table.unpack(result, 1, result.n)
end

-- What a length in m is in the unit that the description is written in.
local function own_unit(source, x)
  if source:find("%*%s*inch%f[^%w_]") then return (" (%.4g in)"):format(x / tarn.units.inch) end
  if source:find("%*%s*ft%f[^%w_]") then return (" (%.3g ft)"):format(x / tarn.units.ft) end
  return ""
end

-- The sentence of an error with its lengths also in that unit; and whether a
-- unit was forgotten.
local function with_units(source, why)
  local x = why.mistake == "range" and why.unit == "m" and why.found and ("%.6g"):format(why.found)
  if x and why.found > why.hi and source:find("=%s*" .. x:gsub("%p", "%%%0") .. "%s*[,;}\n]") then
    return ("%s (a bare number is in m: %s * inch, %s * ft, %s * cm?)"):format(why.text, x, x, x)
  end
  local message = why.text:gsub('(%-?%d+%.?%d*) m%f[^%w]( ?[("]?)', function(m, behind)
    return #behind < 2 and behind ~= '"' and m .. " m" .. own_unit(source, m) .. behind or nil
  end)
  return x and message .. own_unit(source, why.found) or message
end

-- Calls f with the description; an error that names a field gets the file and
-- the line.
function inputs.located(path, source, f, ...)
  local result = table.pack(inputs.tried(tarn.budgeted, f, ...))
  if result[1] then return table.unpack(result, 2, result.n) end
  local why = type(result[2]) == "table" and result[2] or { text = tostring(result[2]) }
  local line = why.path and tarn.budgeted(line_of, source, why.path)
  inputs.at_fault = why.path        -- for a form, which marks it
  tarn.mistake(("%s:%s %s"):format(path, line and line .. ":" or "", with_units(source, why)))
end

-- Gives the fields of a description that have a name of the version before the
-- one that they have now; old: a list to which { path, name } are added.  Lists
-- of points have no names.
local function rename(fields, prefix, old)
  local keys = {}
  for key, value in pairs(fields) do
    if type(key) == "string" or type(value) == "table" and type(value[1]) ~= "number" then keys[#keys + 1] = key end
  end
  table.sort(keys, function(a, b) return tostring(a) < tostring(b) end)
  for _, key in ipairs(keys) do
    local value = fields[key]
    local path = prefix .. (math.type(key) and ("[%d]"):format(key) or prefix == "" and key or "." .. key)
    local now = tarn.path_now(path)
    local name = now and now:match("[%w_]+$")
    if now and fields[name] == nil then
      fields[name], fields[key] = value, nil
      old[#old + 1] = { path, name }
    end
    if type(value) == "table" then rename(value, now or path, old) end
  end
end

-- The names of before in all that was read, for the page (common.outputs).
inputs.old_names = {}

-- The description by the names that its fields have now.
function inputs.renamed(description)
  rename(description, "", inputs.old_names)
  return description
end

-- The path of a field by the names of now.
function inputs.path_now(path)
  local now = tarn.path_now(path)
  if now then table.insert(inputs.old_names, { path, now }) end
  return now or path
end

-- pond, description, its text, located, place: located(f, ...) calls f so that an
-- error which names a field of the description gets the file and the line;
-- place(field) is these, "my-pond.lua:12:"
function inputs.pond(path)
  if path:lower():find("%.csv$") then
    tarn.mistake(("%s: expected a pond description here (.lua or .json): are the files in the right order?"):format(path))
  end
  local description, source = tarn.description(path)
  local function located(f, ...) return inputs.located(path, source, f, ...) end
  local function place(field)
    local line = line_of(source, field)
    return ("%s:%s"):format(path, line and line .. ":" or "")
  end
  local pond = located(tarn.pond, description)
  return pond, inputs.renamed(description), source, located, place
end

local PLACE = "the place is not known: say --latitude DEG (any map shows it; north positive), --elevation LENGTH above the sea and "
  .. "--wind-height LENGTH of the wind gauge (10 m at airports, 2 m at farm stations, by common practice), or write latitude, "
  .. "elevation and wind_height into the evaporation section of the pond"

-- The message of an error on a file, with its name; the library speaks of its own fields, on a command line an option
-- answers.  more: in place of the option's name.
local function message_of(path, why, more)
  if type(why) ~= "table" then return ("%s: %s"):format(path, why) end
  if why.settle == "place" then return ("%s: %s"):format(path, PLACE) end
  local hint = not more and answers.hint(inputs.weather_options, why)
  return (why.file and "" or path .. ": ") .. why.text .. (more or hint and (" (%s)"):format(hint) or "")
end

function inputs.hinted(path, f, ...)
  local result = table.pack(inputs.tried(f, ...))
  if result[1] then return table.unpack(result, 2, result.n) end
  tarn.mistake(message_of(path, result[2]))
end

-- Calls f(name, value) for each NAME=VALUE of an option.
local function each_pair(option, text, example, f)
  for part in text:gmatch("[^,]+") do
    local name, value = part:match("^%s*([%w_]+)%s*=%s*(.-)%s*$")
    if not name or value == "" then
      tarn.mistake(("--%s must be %s, got '%s'"):format(option, example, part))
    end
    f(name, value)
  end
end

-- The units of a map with those of --unit: { tmin = "F" }; file: of all other columns.
local function with_unit(units, text)
  local all = answers.with(type(units) == "table" and units or { file = units }, {})
  each_pair("unit", text, "NAME=UNIT, as rain=mm or tmin=F,tmax=F; the units of a report are --units",
    function(name, unit) all[name] = unit end)
  return all
end

-- Columns by name; all others are found as if none was said.
local function add_columns(map, text)
  if not map.columns and not map.layout then map.layout = "plain" end
  map.columns = answers.with(map.columns or {}, {})
  each_pair("column", text, "NAME=HEADER, as tmin=Low or date=Day", function(name, header)
    if name == "date" then map.date = header else map.columns[name] = header end
  end)
end

-- The words of a map for no value, with those of --missing.
local function with_missing(words, text)
  local all = type(words) == "table" and table.move(words, 1, #words, 1, {}) or { words }
  for word in text:gmatch("[^,]+") do all[#all + 1] = word end
  return all
end

-- A unit is of no use to a column that the file has not.
local function check_units(path, options, file)
  local there = {}
  for _, c in ipairs(options.unit and file.columns or {}) do there[c.name] = true end
  for name in (options.unit or ""):gmatch("([%w_]+)%s*=") do
    if not there[name] then
      tarn.mistake(("%s: --unit %s: no column of the file was taken for %s; tarn weather FILE lists those that were"):format(
        path, name, name))
    end
  end
end

-- The map that the options ask for.
function inputs.map(path, options)
  if path:lower():find("%.lua$") then
    tarn.mistake(("%s: expected a weather file here (.csv): are the files in the right order?"):format(path))
  end
  local map = options.map and tarn.description(options.map) or {}
  map.layout = options.layout or map.layout
  if options.column then add_columns(map, options.column) end
  map.units = options.file_units or map.units
  if options.unit then map.units = with_unit(map.units, options.unit) end
  map.latitude = options.latitude or map.latitude
  map.elevation = options.elevation or map.elevation
  map.wind_height = options.wind_height or map.wind_height
  map.totals = options.totals or map.totals
  map.dates = options.dates or map.dates
  map.decimal = options.decimal or map.decimal
  map.station = options.station or map.station
  map.duplicates = options.duplicates or map.duplicates
  map.order = options.order or map.order
  map.outliers = options.outliers or map.outliers
  if options.missing then map.missing = with_missing(map.missing, options.missing) end
  map.stamps = options.stamps or map.stamps
  map.hour_shift = options.hour_shift or map.hour_shift
  return map
end

-- Which units of a file that carries none give values that can be, tried one by one.
function inputs.units_that_fit(path, map)
  local fit, tried = {}, {}
  for k, v in pairs(map) do tried[k] = v end
  for _, units in ipairs { "standard", "metric", "tenths" } do
    tried.units = units
    local ok, weather = inputs.tried(tarn.weather.read, path, tried)
    if ok and #weather:doubts() == 0 then fit[#fit + 1] = units end
  end
  return fit
end

-- The weather with that of the files of --with; nil, why, path where one cannot be read or joined.
function inputs.joined(weather, options)
  for path in (options.with or ""):gmatch("[^,]+") do
    local _, more, why = tarn.weather.examine(path, inputs.map(path, options))
    if why then return nil, why, path end
    local ok, both = inputs.tried(weather.join, weather, more)
    if not ok then return nil, both, path end
    weather = both
  end
  return weather
end

-- What the file was taken for, and the weather that the options point at, as it is there.
function inputs.examined(path, options)
  local function read(now) return inputs.hinted(path, tarn.weather.examine, path, inputs.map(path, now)) end
  local file, weather, why = read(options)
  if why then
    tarn.mistake(message_of(path, why, answers.sentence(inputs.weather_options, options, why, read)))
  end
  check_units(path, options, file)
  local at
  weather, why, at = inputs.joined(weather, options)
  if why then tarn.mistake(message_of(at, why)) end
  return file, weather
end

-- What is missing for a ledger where no column was taken for rain, with the columns that nothing was taken from.
function inputs.no_rain(file)
  local names = {}
  for _, field in ipairs(file.fields) do
    if (field.use or "") == "" and field.name ~= "" then names[#names + 1] = tarn.visible(field.name) end
  end
  return "no column was taken for rain, which the ledger needs (0 on dry days)" .. (#names == 0 and "" or
    ("; if it is one of those that are not used (%s), say --column rain=NAME"):format(table.concat(names, ", "))) ..
    "; --with FILE takes it from another file of the station"
end

function inputs.raw_weather(path, options)
  local _, weather = inputs.examined(path, options)
  return weather
end

-- How each weather that is run was made: { done =, rule =, stretch = no other rule can be asked for, try = }; try(changes) -> what would be done with other
-- options; nil where these cannot be.
inputs.made = setmetatable({}, { __mode = "k" })

-- The weather that is run: cut to the days asked for, short gaps bridged, the days that the rule of years leaves of those
-- which lack nothing that the method of the options or the description needs; and what was done (tarn.evaporation.ready).
-- options.stretch: of somebody who goes by the index of a day.
function inputs.ready(path, weather, options, description)
  local e = description and description.evaporation or {}
  local rule = options.stretch and "stretch" or options.years or inputs.YEARS
  local function run(now, years)
    return inputs.tried(tarn.evaporation.ready, weather, { method = options.method or e.method, latitude = e.latitude },
      { first = now.first or nil, last = now.last or nil, bridge = now.bridge, bridge_others = now.bridge,
        rain = now.dry_gaps and "zero" or nil, years = years or rule })
  end
  local made, ready, done = run(options)
  if not made then
    local gap = ready.settle == "rain" or ready.settle == "bridge"
    tarn.mistake(message_of(path, ready, gap and answers.aid_sentence(inputs.weather_options, options, ready, function(now)
      local ran, _, did = run(now)
      return ran and did.days or nil
    end)))
  end
  inputs.made[ready] = { done = done, rule = rule, stretch = options.stretch, try = function(changes)
    local ok, _, other = run(answers.with(options, changes), changes.years)
    return ok and other or nil
  end }
  return ready, done
end

-- "1970-01-01 to 2019-12-31 without 1985": the days of a run on a weather.
function inputs.span(weather, first, last)
  local made = inputs.made[weather]
  local out = made and not made.done.stretch and made.done.years_out or ""
  return ("%s to %s%s"):format(first, last, out ~= "" and " without " .. out or "")
end

-- A climate is made as it is: what is said of a file has no place with it.
local function check_climate(options)
  for _, option in ipairs(inputs.with_years {}) do
    if options[option.name:gsub("-", "_")] then
      tarn.mistake(("--climate makes its own weather: leave --%s out, which is for a file"):format(option.name))
    end
  end
end

-- path: nil where the options have a climate.
function inputs.weather(path, options, description)
  if options.climate then
    check_climate(options)
    return climate.weather(options.climate, (description.evaporation or {}).latitude)
  end
  local file, weather = inputs.examined(path, options)
  if not weather:column "rain" then tarn.mistake(("%s: %s"):format(path, inputs.no_rain(file))) end
  return inputs.ready(path, weather, options, description)
end

-- The weather of a command line by the name that messages have for it.
function inputs.weather_name(asked)
  return asked.weather or "--climate " .. asked.climate
end

return inputs

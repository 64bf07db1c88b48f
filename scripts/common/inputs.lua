-- Pond and weather from the command line: options shared by all scripts.
local inputs = {}

inputs.weather_options = {
  { name = "map", value = "FILE", meaning = "Lua table that says where the columns stand" },
  { name = "layout", value = "NAME", meaning = "layout of the file, if not recognised" },
  { name = "file-units", value = "NAME", meaning = "units in a file that does not carry them: standard, metric" },
  { name = "totals", value = "NAME", choices = { "spread", "last" }, meaning = "rain totals of several days: over them, or on the last" },
  { name = "latitude", value = "DEG", kind = "number", meaning = "of the station, north positive" },
  { name = "elevation", value = "M", kind = "number", meaning = "of the station, m" },
  { name = "wind-height", value = "M", kind = "number", meaning = "height of the wind gauge, m" },
  { name = "bridge", value = "DAYS", kind = "number", meaning = "bridge gaps of up to so many days (never rain)" },
  { name = "dry-gaps", meaning = "take days without a rain reading as dry" },
}

function inputs.with_weather(options)
  return table.move(inputs.weather_options, 1, #inputs.weather_options, #options + 1, options)
end

-- Line of a field in the text of a description, where it can be told: the
-- only line that sets it, within its section.
local function line_of(source, name)
  local section, field = name:match("^(%w+)%.([%w_]+)")
  field = field or name:match("^[%w_]+")
  local from, to = 1, #source
  if section then
    local at = source:find("%f[%w_]" .. section .. "\"?%s*[=:]%s*{")
    if not at then return nil end
    local open, close = source:find("%b{}", at)
    from, to = open or at, close or #source
  end
  local line, found = 1, nil
  for number in source:gmatch("()[^\n]*\n?") do
    local s = source:match("^[^\n]*", number)
    local code = s:gsub("%-%-.*$", "")
    local at = code:find("%f[%w_]" .. field .. "\"?%s*[=:]")
    if at and number + at - 1 >= from and number + at - 1 <= to then
      if found then return nil end
      found = line
    end
    line = line + 1
  end
  return found
end

-- Calls f with the description; an error that names a field gets the file and
-- the line.
function inputs.located(path, source, f, ...)
  local result = table.pack(pcall(f, ...))
  if result[1] then return table.unpack(result, 2, result.n) end
  local message = tostring(result[2])
  local name = message:match("^unknown field '([^']+)'") or message:match("^([%w_.]+)")
  local line = name and line_of(source, name)
  tarn.mistake(("%s:%s %s"):format(path, line and line .. ":" or "", message))
end

-- pond, description, the file's text
function inputs.pond(path)
  local description, source = tarn.description(path)
  return inputs.located(path, source, tarn.pond, description), description, source
end

-- The library speaks of its own fields; on a command line an option answers.
local HINTS = {
  { "of no layout", "--map FILE, see docs/methods/weather.md" },
  { "units =", "--file-units NAME" },
  { "totals =", "--totals NAME" },
  { "duplicates =", "in a --map file, see docs/methods/weather.md" },
  { "order =", "in a --map file, see docs/methods/weather.md" },
  { "header =", "in a --map file, see docs/methods/weather.md" },
  { "missing =", "in a --map file, see docs/methods/weather.md" },
  { "outliers =", "in a --map file, see docs/methods/weather.md" },
  { 'rain = "zero"', "--dry-gaps" },
  { "interpolate", "--bridge DAYS" },
  { "fill the gap", "--bridge DAYS, --dry-gaps" },
  { "latitude", "--latitude DEG" },
}

function inputs.hinted(path, f, ...)
  local result = table.pack(pcall(f, ...))
  if result[1] then return table.unpack(result, 2, result.n) end
  local message = tostring(result[2])
  if not message:find(path, 1, true) then message = path .. ": " .. message end
  for _, hint in ipairs(HINTS) do
    if message:find(hint[1], 1, true) then
      message = ("%s (%s)"):format(message, hint[2])
      break
    end
  end
  tarn.mistake(message)
end

-- The files that a run reads: no output may replace them.
function inputs.files(asked)
  return { asked.pond, asked.weather, asked.map }
end

-- The weather that the options point at, without gaps; and what was done.
function inputs.weather(path, options)
  local map = options.map and tarn.description(options.map) or {}
  map.layout = options.layout or map.layout
  map.units = options.file_units or map.units
  map.latitude = options.latitude or map.latitude
  map.elevation = options.elevation or map.elevation
  map.wind_height = options.wind_height or map.wind_height
  map.totals = options.totals or map.totals
  local weather = inputs.hinted(path, tarn.weather.read, path, map)
  if options.bridge or options.dry_gaps then
    inputs.hinted(path, weather.fill, weather,
      { interpolate = options.bridge, rain = options.dry_gaps and "zero" or nil })
  end
  return weather
end

return inputs

-- SPDX-License-Identifier: MIT
-- A climate where no weather is at hand: --climate NAME in the place of WEATHER.csv.
local climate = {}

local function names()
  local list = {}
  for i, c in ipairs(tarn.climates()) do list[i] = c.name end
  return list
end

climate.option = { name = "climate", value = "NAME", offers = names,
  meaning = "in the place of WEATHER.csv: days drawn from a climate; tarn weather --climates lists them" }

-- A position that --climate takes the place of.
climate.position = { name = "WEATHER.csv", key = "weather", unless = "climate", meaning = "daily weather" }

-- What is known of the drawn ones, by weather.
local drawn = setmetatable({}, { __mode = "k" })

-- Degrees between a pond and a climate that are still one region; our own.
local FAR = 5

-- climate.weather(name, latitude) -> weather; latitude: of the description, or nil
function climate.weather(name, latitude)
  local ok, weather = pcall(tarn.climate, name)
  if not ok and type(weather) == "table" and weather.path == "climate" then
    tarn.mistake(weather.text .. "; tarn weather --climates lists all")
  end
  if not ok then error(weather, 0) end
  for _, c in ipairs(tarn.climates()) do
    if c.name == name then drawn[weather] = { climate = c, latitude = latitude } end
  end
  return weather
end

-- What every output of it must say: a list of sentences, empty for measured weather.
function climate.doubts(weather)
  local d = drawn[weather]
  if not d then return {} end
  local c = d.climate
  local list = { ("A CLIMATE, NOT YOUR WEATHER: days drawn by chance (seed 1) from the monthly normals %s of %s. Sun, humidity and "
    .. "wind are estimated, and its years differ less than real ones: no dry year, tank or absence should rest on it. A station's "
    .. "daily file is better: docs/weather-sources.md."):format(c.period, c.place) }
  if d.latitude and math.abs(d.latitude - c.latitude) > FAR then
    list[2] = ("The description lies at latitude %.4g, this climate at %.4g: its days and seasons are of another region."):format(
      d.latitude, c.latitude)
  end
  return list
end

-- A first line for files of figures, or nothing.
function climate.mark(weather)
  local d = drawn[weather]
  return d and ("# a climate, not your weather: drawn from the normals %s of %s, seed 1\n"):format(d.climate.period, d.climate.place) or ""
end

return climate

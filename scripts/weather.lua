-- weather: whether a weather file is usable: columns, gaps, least, mean, most
local args = require "common.args"
local inputs = require "common.inputs"
local text = require "common.text"

local spec = {
  usage = "tarn weather WEATHER.csv [options]",
  purpose = "What a weather file holds, and what Tarn can do with it.",
  positions = { { name = "WEATHER.csv", key = "weather", meaning = "daily weather" } },
  options = inputs.with_weather {},
}

local asked = args.read(spec)
local weather = inputs.weather(asked.weather, asked)
local site = weather:site()

local function coordinate(x, unit)
  return x and ("%.4g %s"):format(x, unit) or "not known"
end

io.write(asked.weather, "\n", ("="):rep(#asked.weather), "\n")
io.write(("%d days, %s to %s\n"):format(weather:days(), weather:first(), weather:last()))
io.write(("Station: %slatitude %s, elevation %s, wind gauge at %s\n\n"):format(
  site.name and site.name ~= "" and site.name .. ", " or "", coordinate(site.latitude, "deg"),
  coordinate(site.elevation, "m"), coordinate(site.wind_height, "m")))

local ORDER = { "tmin", "tmax", "tmean", "rh_min", "rh_max", "rh_mean", "dewpoint", "vapour", "wind", "sunshine",
  "solar", "rain", "pan", "reference", "open_water", "pressure" }
local rows, summary = {}, weather:summary()
for _, name in ipairs(ORDER) do
  local s = summary[name]
  if s then
    local function cell(x) return x and ("%.4g"):format(x) or "-" end
    rows[#rows + 1] = { name, s.unit, text.number(s.present), text.number(s.missing),
      cell(s.min), cell(s.mean), cell(s.max) }
  end
end
io.write(text.table({ "Column", "Unit", "Days", "Missing", "Least", "Mean", "Most" }, rows))
io.write(text.wrap("Units are those that Tarn works in, after conversion. Do the figures fit the place? A wrong unit shows here."))

local methods = tarn.evaporation.methods(weather)
io.write(text.heading("Evaporation"))
if #methods == 0 then
  io.write(text.wrap("No method can be used as it stands: fill the gaps (--bridge, --dry-gaps), or give what is missing (temperatures, --latitude)."))
else
  io.write(text.wrap("Methods that it allows: " .. table.concat(methods, ", ") .. "."))
end
if #weather:notes() > 0 then io.write(text.heading("Notes"), text.list(weather:notes())) end

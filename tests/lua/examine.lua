-- SPDX-License-Identifier: MIT
-- tarn.weather.examine: what a file was taken for, read or refused.
local file, weather, why = tarn.weather.examine("tests/good/plain.csv")
assert(weather and not why and #weather == file.days)
assert(file.layout == "plain" and file.delimiter == "," and file.header_line == 1 and file.date == "date")
local by_name = {}
for _, c in ipairs(file.columns) do by_name[c.name] = c end
assert(by_name.tmax.from == "tmax_f" and by_name.tmax.file_unit == "F" and by_name.tmax.unit_from == "header")
assert(by_name.tmax.present + by_name.tmax.missing == file.days and by_name.wind.use == nil)
assert(file.fields[1].use == "date" and file.fields[#file.fields].use == nil and file.fields[1].first == "2015-02-27")
assert(file.site.wind_height == 10)

file, weather, why = tarn.weather.examine("tests/good/noaa_order.csv")
assert(not weather and why.path == "units" and tostring(why):find("units must be given", 1, true))
assert(file.fields[6].name == "DATE" and file.header_line == 1 and not file.first)

-- An error is data: which answer settles it, those that can be, file, line and column, and the sentence without them.
assert(why.settle == "units" and table.concat(why.answers, " ") == "standard metric tenths")
assert(why.file == "tests/good/noaa_order.csv" and why.line == 1 and not why.column)
_, _, why = tarn.weather.examine("tests/bad/american_date.csv")
assert(why.settle == "dates" and table.concat(why.answers, " ") == "us european" and why.line == 2 and why.column == 1)
assert(why.text == why.file .. ":2:1: " .. why.sentence)
_, _, why = tarn.weather.examine("tests/bad/short_row.csv")
assert(why.settle == "nothing" and #why.answers == 0)

-- A map that is wrong is the caller's mistake.
local ok, message = pcall(tarn.weather.examine, "tests/good/plain.csv", { layot = "plain" })
assert(not ok and tostring(message):find("layout", 1, true))

-- A cleaned file is read again to the bit.
local cleaned = require "weather.cleaned"
local made = tarn.weather.table { first = "2015-02-27", tmin = { 0.1 + 0.2, -1 / 3, 5e-324 }, tmax = { 20.0, 1e-3 / 7, 7 },
  rain = { 0, 2 / 3, false }, wind = { 1.1, 2.2, 3.3 }, latitude = 47.1, elevation = 12.5, wind_height = 2.44, name = "A station" }
local again = tarn.weather.parse(cleaned("x.csv", made))
assert(#again == 3 and again:first() == made:first())
for _, name in ipairs { "tmin", "tmax", "rain", "wind" } do
  for i, x in ipairs(made:column(name)) do
    local y = again:column(name)[i]
    assert(x == y or (x ~= x and y ~= y), name)
  end
end
for key, value in pairs(made:site()) do assert(again:site()[key] == value, key) end

-- SPDX-License-Identifier: MIT
-- Days that are left out of a weather, through the module.


local rows = { days = {}, tmin = {}, tmax = {}, rain = {} }
for i = 1, 730 do
  rows.tmin[i], rows.tmax[i], rows.rain[i] = 8, 20 + i % 5, i % 6 == 0 and 4 or 0
end
local weather = tarn.weather.table { first = "2021-01-01", latitude = 45, tmin = rows.tmin, tmax = rows.tmax, rain = rows.rain }
assert(weather:counted() == 730 and #weather:left_out() == 0)
weather:leave_out("2021-06-01", "2021-06-30")
weather:leave_out("2022-12-01", "2022-12-31")
assert(weather:counted() == 669 and weather:days() == 730)
local holes = weather:left_out()
assert(#holes == 2 and holes[1].first == "2021-06-01" and holes[1].last == "2021-06-30" and holes[1].days == 30)
assert(holes[2].last == "2022-12-31" and holes[2].days == 31)
local ok, why = pcall(weather.leave_out, weather, "2020-01-01", "2021-01-01")
assert(not ok and why.path == "first", tostring(why))

local pond = tarn.pond { basin = { shape = "rectangle", length = 4, width = 3, depth = 1 },
  overflow_level = 0.9, target = 0.85, trigger = 0.8, intake = 0.7 }
local ledger = pond:run(weather, {})
assert(#ledger == 669 and #ledger:months() == 22)
assert(ledger:totals().days == 669 and ledger:report().days == 669)
local days = pond:endurance(weather, {})
assert(#days == 730 and days[152] == "left_out" and days[151] ~= "left_out" and days[182] ~= "left_out")
local absence = tarn.absence(days, "2021-01-01")
local months = {}
for _, m in ipairs(absence.months) do months[m.month] = true end
assert(months[6] and months[12])   -- of the other year

-- The figure over time places days by date: 31 and 30 days without a value, each week on its first day.
local figures, view_of = require "topup.figures", require "common.view"
weather = weather:slice("2021-05-01", "2021-07-31")
ledger = pond:run(weather, {})
local job = { weather = weather, days = ledger:days(), weeks = ledger:weeks(), months = ledger:months(), facts = pond:facts() }
local plot = figures.time_plot(job, view_of "metric")
local level, bars = plot.panels[1], plot.panels[2]
assert(level.first == "2021-05-01" and #level.series[1].values == 92)
for i, value in ipairs(level.series[1].values) do assert((value ~= value) == (i > 31 and i <= 61), i) end
assert(#bars.dates == 11 and bars.dates[6] == "2021-05-31" and bars.dates[7] == "2021-07-01")
local drawing = figures.time(job, view_of "metric")
local _, lines = drawing:gsub("<polyline", "")
assert(lines == 2)
-- the bar of the first week of July begins two thirds through the panel
local x = {}
for at in drawing:gmatch('<rect x="([%d.]+)"') do x[#x + 1] = tonumber(at) end
local first, last = x[#x - 10], x[#x]
assert(#x >= 11 and math.abs((x[#x - 4] - first) / (last - first) - 61 / 86) < 0.02, ("%g %g %g"):format(first, x[#x - 4], last))

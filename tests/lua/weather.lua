-- SPDX-License-Identifier: MIT
local tarn = require "tarn"
local weather = tarn.weather

local function near(a, b, tolerance)
	return math.abs(a - b) <= (tolerance or 1e-12) * math.max(1, math.abs(b))
end

-- Calls f and checks that it raises an error that holds all the given texts.
local function raises(f, ...)
	local ok, message = pcall(f)
	assert(not ok, "no error was raised")
	for _, text in ipairs {...} do
		assert(tostring(message):find(text, 1, true),
			("'%s' is not in: %s"):format(text, message))
	end
end

-- A file whose names carry their units, and what can be asked of a weather.
do
	local w = weather.read("weather-samples/fallon_daily_2015.csv",
		{latitude = 39.4575, elevation = 1208.5, name = "Fallon"})
	assert(w:days() == 365 and #w == 365)
	assert(w:first() == "2015-01-01" and w:last() == "2015-12-31")
	assert(tostring(w) == "weather: 365 days, 2015-01-01 to 2015-12-31: "
		.. "tmin tmax dewpoint wind solar reference", tostring(w))
	local site = w:site()
	assert(near(site.latitude, 39.4575) and near(site.elevation, 1208.5))
	assert(near(site.wind_height, 3) and site.name == "Fallon")
	local s = w:summary()
	assert(s.wind.present == 364 and s.wind.missing == 1 and s.rain == nil)
	assert(near(s.tmax.max, 39.44) and s.tmax.unit == "deg C")
	local wind = w:column("wind")
	assert(#wind == 365 and near(wind[1], 0.635))
	assert(wind[112] ~= wind[112], "22 April is missing: NaN")
	assert(w:column("rain") == nil)
	local gaps = w:gaps()
	assert(#gaps == 1 and gaps[1].column == "wind"
		and gaps[1].first == "2015-04-22" and gaps[1].days == 1)
	local notes = table.concat(w:notes(), "\n")
	assert(notes:find("not used: etr_asce_mm (of alfalfa)", 1, true))

	raises(function() w:fill {} end, "wind", "1 day from 2015-04-22")
	local filled = w:fill {interpolate = 1}
	assert(filled.wind == 1 and filled.tmin == nil and #w:gaps() == 0)
	wind = w:column("wind")
	assert(near(wind[112], (wind[111] + wind[113]) / 2))

	local part = w:slice("2015-06-01", "2015-06-30")
	assert(#part == 30 and near(part:column("wind")[1], wind[152]))
	assert(part:site().name == "Fallon")
	assert(#w:slice(nil, "2015-01-10") == 10)
	local both = w:slice(nil, "2015-01-10"):join(w:slice("2015-01-20", "2015-01-21"))
	assert(#both == 21 and both:column("tmax")[21] == w:column("tmax")[21] and both:column("tmax")[15] ~= both:column("tmax")[15])
	raises(function() w:join(weather.table { first = "2015-01-01", tmin = { -40 } }) end, "in one file and -40")
	raises(function() w:slice("2014-12-31") end, "first", "2015-01-01")
	raises(function() w:slice("1 Jan") end, "first must be a date")
	raises(function() w:column("tmni") end, "did you mean 'tmin'?")
	raises(function() w:fill {interpolate = 40} end, "interpolate", "0 to 31")
	raises(function() w:fill {interpolte = 4} end, "did you mean 'interpolate'?")
	raises(function() w:fill {rain = "interpolate"} end, "never interpolated")
end

-- A column that our own layout passes over can be mapped beside it.
do
	local w = weather.read("weather-samples/fallon_daily_2015.csv",
		{layout = "plain", columns = {reference = {name = "eto_asce_mm", unit = "mm"}}})
	assert(near(w:column("reference")[1], 0.51) and near(w:column("wind")[1], 0.635))
end

-- A file without units: the map says it all.
local seattle = {
	columns = {tmin = "temp_min", tmax = "temp_max", wind = "wind", rain = "precipitation"},
	units = {tmin = "C", tmax = "C", wind = "m/s", rain = "mm"},
	date = {name = "date", format = "%Y/%m/%d"},
	name = "Seattle", latitude = 47.45, elevation = 130,
}
do
	local path = "weather-samples/seattle_daily_2012_2015.csv"
	local w = weather.read(path, seattle)
	assert(#w == 1461 and near(w:summary().rain.mean, 3.02943189596167))
	assert(#w:gaps() == 0)
	raises(function() weather.read(path) end, path .. ":1: ",
		"temp_min carries no unit")
	raises(function() weather.read(path, {columns = {tmin = "temp_min"}}) end,
		"units.tmin is not known", "C, F, K")
	raises(function()
		weather.read(path, {columns = {tmin = "tmp_min"}, units = {tmin = "C"}})
	end, "columns.tmin", "did you mean 'temp_min'?")
	raises(function() weather.read(path, {column = {}}) end, "did you mean 'columns'?")
	raises(function() weather.read(path, {columns = {temp = "x"}}) end,
		"no weather column is called 'temp'")
	raises(function()
		weather.read(path, {columns = {tmin = {name = "x", scael = 1}}})
	end, "did you mean 'scale'?")
	raises(function() weather.read(path, {duplicates = "newest"}) end,
		'"error", "first", "last"')
	raises(function() weather.read(path, {skip = -1}) end, "skip must be a whole number")
	raises(function() weather.read(path, {missing = 9}) end, "missing must be")
	raises(function() weather.read(path, {layout = "noaa"}) end, "layout", "noaa_order")
	raises(function() weather.read(path, {latitude = 91}) end, "latitude [deg]")
end

-- A file that does not say its units asks; totals of several days are said.
do
	local path = "weather-samples/hancock_ghcn_order_2010_2020.csv"
	raises(function() weather.read(path) end, path .. ":1: units", '"standard"')
	local w = weather.read(path, {units = "standard"})
	assert(w:site().name == "HANCOCK EXPERIMENTAL FARM, WI US")
	assert(table.concat(w:notes(), "\n"):find("46 totals of several days, 595.4 mm", 1, true))
	local spread = weather.read(path, {units = "standard", totals = "spread"})
	assert(spread:summary().rain.present == w:summary().rain.present + 144)
	raises(function() spread:fill {interpolate = 10} end, "rain", "zero")
	local filled = spread:fill {interpolate = 10, rain = "zero"}
	assert(filled.rain == 160 and #spread:gaps() == 0)
	raises(function() w:fill {interpolate = 10, columns = {"rain"}} end, "rain")
	w:fill {interpolate = 10, columns = {"tmin", "tmax"}}
	assert(w:summary().tmin.missing == 0 and w:summary().rain.missing == 304)
end

-- Everything that a map can say, on text.
do
	local text = [[
a report
T;T;Rain;Rain flag;Day;Month;Year
-5,5;1;12;;31;1;2015
-999;2;T;;2;2;2015
1;M;33;bad;1;2;2015
]]
	local w = weather.parse(text, {
		skip = 1, delimiter = ";", decimal = ",", order = "sort",
		missing = {"-999", "M"}, trace = "T",
		date = {year = "Year", month = "Month", day = "Day"},
		columns = {
			tmin = {name = "T", occurrence = 1, unit = "C"},
			tmax = {index = 2, unit = "C"},
			rain = {name = "Rain", unit = "mm", scale = 0.1,
				flag = {name = "Rain flag", reject = {"bad"}}},
			wind = false,
		},
	})
	assert(#w == 3 and w:first() == "2015-01-31")
	local rain, tmin, tmax = w:column "rain", w:column "tmin", w:column "tmax"
	assert(near(rain[1], 1.2) and rain[2] ~= rain[2] and rain[3] == 0)
	assert(near(tmin[1], -5.5) and tmin[3] ~= tmin[3] and tmax[2] ~= tmax[2])
	assert(table.concat(w:notes(), "\n"):find("rain: 1 trace counted as 0", 1, true))

	raises(function() weather.parse("date,rain_mm\n2015-01-01,x\n") end,
		"text:2:2: rain_mm 'x' is not a number")

	local hours = {"time,t\n"}
	for h = 0, 23 do
		hours[#hours + 1] = ("2015-01-01 %02d:00,%d\n"):format(h, h)
	end
	w = weather.parse(table.concat(hours), {
		hours = 24, date = {name = "time", format = "%Y-%m-%d %H:%M"},
		columns = {tmin = "t", tmax = "t", tmean = {name = "t", combine = "mean"}},
		units = {tmin = "C", tmax = "C", tmean = "C"},
	})
	assert(w:column("tmin")[1] == 0 and w:column("tmax")[1] == 23
		and near(w:column("tmean")[1], 11.5))
	-- 'rule', the name of the version before, is read and noted
	local old = weather.parse(table.concat(hours), {
		hours = 24, date = {name = "time", format = "%Y-%m-%d %H:%M"},
		columns = {tmin = "t", tmax = "t", tmean = {name = "t", rule = "mean"}},
		units = {tmin = "C", tmax = "C", tmean = "C"},
	})
	assert(old:column("tmean")[1] == w:column("tmean")[1])
	assert(table.concat(old:notes()):find("'rule' is called 'combine' now", 1, true))
	assert(not table.concat(w:notes()):find("called", 1, true))
end

-- A weather that a script makes up.
do
	local w = weather.table {first = "2016-02-28", latitude = 52,
		tmin = {1, 2, false}, tmax = {5, 6.5, 7}, rain = {0, 0 / 0, 3}}
	assert(#w == 3 and w:last() == "2016-03-01")
	assert(w:summary().tmin.missing == 1 and w:summary().rain.missing == 1)
	raises(function() weather.table {first = "2016-02-30", tmin = {1}} end, "first must be a date")
	raises(function() weather.table {first = "2016-02-28", tmin = {1}, tmax = {1, 2}} end,
		"tmax has 2 days, tmin has 1")
	raises(function() weather.table {first = "2016-02-28", tmin = {5}, tmax = {1}} end,
		"2016-02-28", "over tmax")
	raises(function() weather.table {first = "2016-02-28", tmin = {"x"}} end, "tmin[1]")
	raises(function() weather.table {first = "2016-02-28", tmni = {1}} end, "did you mean 'tmin'?")
	raises(function() weather.table {first = "2016-02-28"} end, "days")
end

-- Closing, by hand or by scope.
do
	local kept
	do
		local w <close> = weather.table {first = "2016-02-28", rain = {1}}
		kept = w
	end
	assert(tostring(kept) == "weather (closed)")
	raises(function() kept:days() end, "weather is closed")
	kept:close()
	raises(function() kept.days(3) end, "weather must come from")
end

-- The columns, for those who print them.
do
	local columns = weather.columns()
	assert(#columns == 16 and columns[1].name == "tmin" and columns[1].unit == "deg C")
	assert(columns[12].name == "rain" and columns[12].lo == 0 and columns[12].hi == 1500)
end

raises(function() weather.read("no such file.csv") end,
	"no such file.csv: cannot be opened: No such file or directory")

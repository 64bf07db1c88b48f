-- SPDX-License-Identifier: MIT
-- The list of climates: tarn weather --climates.
local new_page = require "common.page"
local text = require "common.text"
local view_of = require "common.view"

local function sum(x)
  local all = 0
  for m = 1, 12 do all = all + x[m] end
  return all
end

-- Mean temperature of the warmest and the coldest month.
local function ends(c)
  local least, most = math.huge, -math.huge
  for m = 1, 12 do
    local mean = (c.tmax[m] + c.tmin[m]) / 2
    least, most = math.min(least, mean), math.max(most, mean)
  end
  return least, most
end

-- climates(view) -> page
return function(units)
  local view, page, rows, sources = view_of(units), new_page "Climates", {}, {}
  for i, c in ipairs(tarn.climates()) do
    local least, most = ends(c)
    rows[i] = { c.name, c.place, ("%.1f"):format(c.latitude), view:show("rain", sum(c.rain)), text.number(sum(c.wet_days)),
      view:temp(least), view:temp(most) }
    sources[i] = ("%s: %s. %s, normals %s. %s; %s."):format(c.name, c.kind, c.station, c.period, c.source, c.licence)
  end
  page:paragraph("For a pond without weather at hand. Take the one whose seasons are most like yours:")
  page:code "tarn topup POND.lua --climate NAME\n"
  page:table({ "Name", "Place", "Latitude", "Rain of\na year", "Days\nof rain", "Coldest\nmonth", "Warmest\nmonth" }, rows)
  page:paragraph("Each is a climate, not your weather: thirty years of days drawn by chance from a station's monthly normals. Sun, humidity and wind are estimated, and the years differ less than real ones (docs/methods/climate.md).")
  page:list(sources)
  return page
end

-- SPDX-License-Identifier: MIT
-- Where the columns of seattle_daily_2012_2015.csv stand; the file carries no
-- units.  Station and wind height are from memory.
return {
  layout = "none",
  date = { name = "date", format = "%Y/%m/%d" },
  columns = {
    rain = { name = "precipitation", unit = "mm" },
    tmax = { name = "temp_max", unit = "C" },
    tmin = { name = "temp_min", unit = "C" },
    wind = { name = "wind", unit = "m/s" },
  },
  latitude = 47.45, elevation = 130, wind_height = 10,
}

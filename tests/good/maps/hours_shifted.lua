return { date = { name = "stamp", format = "%Y-%m-%d %H:%M" }, hours = 24, hour_shift = -1,
  columns = { tmin = { name = "temp", unit = "C" }, tmean = { name = "temp", unit = "C" }, rain = { name = "rain", unit = "mm" } } }

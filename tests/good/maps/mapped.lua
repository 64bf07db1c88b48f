return { skip = 3, delimiter = ";", decimal = ",", date = { name = "Day", format = "%d/%m/%Y" },
  columns = { tmin = { name = "T min", unit = "C" }, tmax = { name = "T max", unit = "C", occurrence = 2 },
    rain = { name = "Rain", unit = "mm", flag = { name = "Flag", reject = { "B", "C" } } } },
  missing = { "-999", "M" }, trace = "T", duplicates = "last" }

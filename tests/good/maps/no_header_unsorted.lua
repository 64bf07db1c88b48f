return { header = false, date = { index = 2, format = "%Y%j" }, columns = { rain = { index = 3, unit = "mm", scale = 0.1 } },
  order = "sort", duplicates = "first" }

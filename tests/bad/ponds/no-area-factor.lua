-- expect: basin.area_factor is missing
return { basin = { shape = "irregular", length = 3, width = 2, depth = 1 }, overflow_level = 0.9 }

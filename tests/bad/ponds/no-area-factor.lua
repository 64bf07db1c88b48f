-- expect: basin.area_factor is missing
return { basin = { shape = "irregular", length = 3, width = 2, depth = 1 }, lip = 0.9 }

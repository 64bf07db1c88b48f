-- expect: bed.plant_factor must be one number or a list of 12
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 1, bed = { area = 3, plant_factor = { 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1 } } }

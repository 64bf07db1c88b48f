-- expect: unknown field 'bed.a[1'
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 1, bed = { ["a[1"] = 1 } }

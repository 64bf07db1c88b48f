-- expect: unknown field '%b{}'
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 1, ["%b{}"] = 1 }

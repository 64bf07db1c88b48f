-- expect: must be 0.01 to 20, got inf
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 1/0 }

-- expect: overflow_level is missing
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 } }

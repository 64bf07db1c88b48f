-- expect: must be a number, got the text "1 m": a unit is a factor, as in 16 * ft
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = "1 m" }

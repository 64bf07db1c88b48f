-- expect: overflow_level [m] must be 0.01 to 20, got 39 (a bare number is in m: 39 * inch
return { basin = { shape = "rectangle", length = 12 * ft, width = 9 * ft, depth = 42 * inch }, overflow_level = 39 }

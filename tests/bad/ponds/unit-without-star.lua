-- expect: put a star between a number and its unit, as 39 * inch
return { basin = { shape = "rectangle", length = 12 * ft, width = 9 * ft, depth = 42 * inch }, overflow_level = 39 inch }

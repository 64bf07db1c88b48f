-- expect: overflow level at 0.9906 m (39 in): the supply would run over it, got 1.016 m (40 in)
return { basin = { shape = "rectangle", length = 12 * ft, width = 9 * ft, depth = 42 * inch }, overflow_level = 39 * inch, target = 40 * inch, trigger = 36 * inch }

-- expect: write * for times
return { basin = { shape = "rectangle", length = 12 * ft, width = 9 * ft, depth = 42 * inch },
  overflow_level = 39 × inch }

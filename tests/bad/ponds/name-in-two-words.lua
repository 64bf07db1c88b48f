-- expect: or a name is in two words: overflow_level is one
return { basin = { shape = "rectangle", length = 12 * ft, width = 9 * ft, depth = 42 * inch },
  overflow level = 39 * inch }

-- expect: a remark begins with --
return { basin = { shape = "rectangle", length = 12 * ft, width = 9 * ft, depth = 42 * inch },
  // the lip
  overflow_level = 39 * inch }

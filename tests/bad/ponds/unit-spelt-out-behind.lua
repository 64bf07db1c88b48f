-- expect: put a star between a number and its unit, as 39 * inch; there is no unit 'inches': did you mean 'inch'?
return { basin = { shape = "rectangle", length = 12 * ft, width = 9 * ft, depth = 42 * inch },
  overflow_level = 39 inches }

-- expect: a fraction is added, as (3 + 1/2) * ft
return { basin = { shape = "rectangle", length = 12 * ft, width = 9 * ft, depth = 42 * inch },
  overflow_level = 3 1/4 * ft }

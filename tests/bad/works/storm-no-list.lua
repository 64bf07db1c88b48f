-- expect: catchments must be a list
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  catchments = { area = 10, coefficient = 0.9 } }

-- expect: drain away from it or stand
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  stream = { length = 3, width = 0.4, slope = 0, manning = 0.035 } }

-- expect: stream.slope must fall towards the pond
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pump = { flow = 2000 * gph },
  stream = { length = 3, width = 0.4, slope = -0.05, manning = 0.035 } }

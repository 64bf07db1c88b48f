-- expect: in transit over bed, stream and pipes
return { basin = { length = 1, width = 1, depth = 0.5 }, overflow_level = 0.45,
  pump = { flow = 5000 * gph },
  falls = { { width = 0.3, pool = 40 } } }

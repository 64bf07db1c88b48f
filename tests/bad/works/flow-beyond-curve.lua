-- expect: pump.flow is beyond the curve
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pump = { max_head = 10 * ft, label_flow = 3000 * gph, flow = 9000 * gph } }

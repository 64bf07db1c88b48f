-- expect: pump cannot lift: it reaches 1.83 m (6 ft) at no flow
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pump = { max_head = 6 * ft, label_flow = 2000 * gph },
  pipes = { { to = "bed", size = "1.5", length = 8, lift = 2.5 } } }

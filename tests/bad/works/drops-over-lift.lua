-- expect: falls drop 4.27 m (14 ft) in all
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pump = { max_head = 10 * ft, label_flow = 3000 * gph },
  pipes = { { to = "falls", size = "1.5", length = 8, lift = 3 * ft } },
  falls = { { width = 0.4, drop = 14 * ft } } }

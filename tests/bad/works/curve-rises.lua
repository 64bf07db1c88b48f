-- expect: point 2: head must fall
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pump = { curve = { { 0, 5 }, { 1e-3, 6 } } },
  pipes = { { to = "bed", size = "2", length = 8, lift = 1 } } }

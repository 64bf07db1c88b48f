-- expect: pump.curve ends too early
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pump = { curve = { { 0, 5 }, { 5e-4, 4.5 }, { 1e-3, 4 } } },
  pipes = { { to = "bed", size = "3", length = 2, lift = 0.5 } } }

-- expect: pump.curve and max_head exclude each other
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pump = { curve = { { 0, 5 }, { 1e-3, 4 } }, max_head = 5, label_flow = 2e-3 } }

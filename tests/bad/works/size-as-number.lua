-- expect: pipes[1].size
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pipes = { { to = "bed", size = 2, length = 8 } } }

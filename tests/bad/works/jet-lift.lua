-- expect: lift belongs to runs to bed or falls
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pipes = { { to = "pond", size = "1", length = 8, lift = 1 } } }

-- expect: :3: falls[1].width is missing
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  falls = { { kind = "stone", drop = 0.3 } } }

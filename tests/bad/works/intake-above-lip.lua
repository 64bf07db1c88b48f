-- expect: intake must lie between the floor
return { basin = { length = 4, width = 3, depth = 1.2 },
  overflow_level = 1.1,
  intake = 1.15 }

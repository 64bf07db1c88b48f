-- expect: intake must lie between the floor
return { basin = { length = 4, width = 3, depth = 1.2 },
  lip = 1.1,
  intake = 1.15 }

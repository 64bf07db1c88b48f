-- expect: basin.shelves must be a list, each entry in braces of its own
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2,
  shelves = { depth = 0.3, width = 0.2 } }, overflow_level = 1 }

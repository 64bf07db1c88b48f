-- expect: pipes number 1 needs an inside diameter
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  pipes = { { to = "bed", size = "6", schedule = "40 pvc", length = 8 } } }

-- expect: meet before the floor
return { basin = { shape = "ellipse", length = 3, width = 2, depth = 1, side_slope = 1.2 }, overflow_level = 0.9 }

-- expect: basin.depth [m] must be 0.05 to 15, got -1
return { basin = { shape = "ellipse", length = 4, width = 3, depth = -1 }, overflow_level = 0.9 }

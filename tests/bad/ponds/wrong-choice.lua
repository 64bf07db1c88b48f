-- expect: basin.shape must be one of "rectangle", "ellipse", "irregular"
return { basin = { shape = "round", length = 4, width = 3, depth = 1 }, overflow_level = 0.9 }

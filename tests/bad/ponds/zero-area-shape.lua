-- expect: zero-area-shape.lua:3: basin.length [m] must be 0.2 to 200, got 0
return {
  basin = { shape = "ellipse", length = 0, width = 3, depth = 1 }, overflow_level = 0.9 }

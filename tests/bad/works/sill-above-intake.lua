-- expect: :4: bay.sill at 1 m does not lie under the intake level at 0.9 m
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  intake = 0.9,
  bay = { width = 0.4, sill = 1.0 } }

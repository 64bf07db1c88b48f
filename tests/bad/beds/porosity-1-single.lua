-- expect: bed.porosity [-] must be 0.1 to 0.9, got 1
return {
  basin = { shape = "rectangle", length = 4, width = 3, depth = 1 },
  overflow_level = 0.9,
  pump = { flow = 6000 * lph },
  bed = { area = 2, depth = 0.6, porosity = 1, diameter = 0.02 },
}

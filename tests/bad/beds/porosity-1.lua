-- expect: bed.layers[2].porosity must be 0.05 to 0.95 in stone, got 1
return {
  basin = { shape = "rectangle", length = 4, width = 3, depth = 1 },
  overflow_level = 0.9,
  pump = { flow = 6000 * lph },
  bed = {
    area = 2,
    layers = {
      { name = "chamber", thickness = 0.1, porosity = 0.9 },
      { name = "gravel", thickness = 0.5, diameter = 0.02, porosity = 1 },
    },
  },
}

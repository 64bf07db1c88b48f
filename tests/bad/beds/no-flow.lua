-- expect: pump.flow is missing, and neither a curve with pipes nor a demand tells it
return {
  basin = { shape = "rectangle", length = 4, width = 3, depth = 1 },
  overflow_level = 0.9,
  bed = {
    area = 2,
    layers = {
      { name = "chamber", thickness = 0.1, porosity = 0.9 },
      { name = "gravel", thickness = 0.5, diameter = 0.02, porosity = 0.4 },
    },
  },
}

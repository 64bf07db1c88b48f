-- expect: bed has no feasible size among
return {
  basin = { shape = "rectangle", length = 4, width = 3, depth = 1 },
  overflow_level = 0.9,
  pump = { flow = 6000 * lph },
  bed = {
    loading = 40,
    layers = {
      { name = "chamber", thickness = 0.1, porosity = 0.9 },
      { name = "gravel", thickness = 0.5, diameter = 0.02, porosity = 0.4 },
    },
  },
  fish = { feed = 20 },
  yard = { length = 4, width = 3, setback = 0.5 },
  treatment = { ammonia = 0.5, k = 30 },
}

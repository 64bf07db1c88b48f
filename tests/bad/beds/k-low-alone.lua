-- expect: treatment.k_high is missing: k_low and k_high go together
return {
  basin = { shape = "rectangle", length = 4, width = 3, depth = 1 },
  overflow_level = 0.9,
  pump = { flow = 6000 * lph },
  bed = {
    area = 2,
    layers = {
      { name = "chamber", thickness = 0.1, porosity = 0.9 },
      { name = "gravel", thickness = 0.5, diameter = 0.02, porosity = 0.4 },
    },
  },
  fish = { feed = 60 * g },
  treatment = { ammonia = 0.5, k = 2500, k_low = 3 },
}

-- expect: treatment.rate 'hf-amonia-2009' is none of its names: did you mean 'hf-ammonia-2009'?
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
  treatment = { rate = "hf-amonia-2009" },
}

-- One stone, water from side to side, a rate by its name and one pass.
return {
  name = "Horizontal",
  basin = { shape = "rectangle", length = 5, width = 3, depth = 1 },
  overflow_level = 0.9,
  pump = { flow = 200 * lph },
  bed = { area = 20, depth = 0.6, porosity = 0.38, diameter = 16 * mm, direction = "horizontal", cover = 5 * cm,
    drop = 0.3, kind = "slow_planted" },
  fish = { mass = 5, ration = 0.015 },
  treatment = { rate = "hf-ammonia-2009", inlet = 4, target = 3.9 },
}

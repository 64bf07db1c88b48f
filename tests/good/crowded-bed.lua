-- Described, and judged: too many fish, too little room, no head.
return {
  name = "Crowded",
  basin = { shape = "rectangle", length = 5, width = 3, depth = 1 },
  overflow_level = 0.9,
  pump = { flow = 800 * lph },
  bed = {
    length = 3, width = 1,
    layers = { { name = "sand", thickness = 0.6, diameter = 1 * mm, porosity = 0.36 } },
    cover = 2 * cm, available_head = 1 * cm, lip_head = 1 * cm,
  },
  fish = { mass = 60, protein = 0.4 },
  water = { temp = 26 },
  treatment = { ammonia = 0.3, k = 2500, k_low = 3.29, k_high = 3.29 },
  yard = { length = 3, width = 2, setback = 0.3 },
}

-- A bed without a size: tarn bed proposes one, and the section to paste.
return {
  name = "Unsized",
  basin = { shape = "rectangle", length = 5 * m, width = 3 * m, depth = 1 * m },
  overflow_level = 0.9 * m, trigger = 0.85 * m,
  pump = { flow = 5000 * lph },
  fish = { feed = 50 * g },
  bed = {
    layers = {
      { name = "crates", thickness = 20 * cm, porosity = 0.95 },
      { name = "gravel", thickness = 25 * cm, diameter = 30 * mm, porosity = 0.4, sphericity = 0.82 },
      { name = "fine gravel", thickness = 25 * cm, diameter = 16 * mm, porosity = 0.37, bulk_density = 1550 * kg / m3 },
    },
    cover = 6 * cm, lip_head = 1 * cm, surface_share = 0.2,
    plant_factor = { 0.3, 0.3, 0.5, 1, 1.2, 1.5, 1.5, 1.5, 1.2, 1, 0.5, 0.3 },
  },
}

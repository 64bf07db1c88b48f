-- A bed whose lip, a fall of 2 ft, wants more head than its dry stone has.
return {
  name = "Bed behind a lip",
  basin = { shape = "rectangle", length = 14 * ft, width = 9 * ft, depth = 4 * ft },
  overflow_level = 46 * inch, target = 45 * inch, trigger = 44 * inch,
  pump = { flow = 2783 * gph },
  falls = { { name = "bed lip", bed = true, kind = "stone", width = 2 * ft, drop = 20 * inch } },
  bed = {
    layers = {
      { name = "chamber", thickness = 4 * inch, porosity = 0.95 },
      { name = "cobble", thickness = 6 * inch, diameter = 3 * inch, porosity = 0.42 },
      { name = "pea gravel", thickness = 14 * inch, diameter = 3 / 8 * inch, porosity = 0.36 },
    },
    cover = 2 * inch, drop = 20 * inch, length = 3.24 * ft, width = 9.72 * ft,
    surface_share = 0.1,
  },
}

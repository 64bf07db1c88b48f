-- A bed whose flow nobody gives: the pump's curve, the lift and two pipes tell it.
return {
  name = "Curve",
  basin = { shape = "rectangle", length = 5, width = 3, depth = 1.2 },
  overflow_level = 1.1, target = 1.05, trigger = 1.0,
  bed = { length = 1.2, width = 2.5, cover = 0.05, layers = {
    { name = "cobble", thickness = 0.2, diameter = 0.075, porosity = 0.42 },
    { name = "gravel", thickness = 0.4, diameter = 0.02, porosity = 0.38 } } },
  pump = { curve = { { 0, 5 }, { 1e-3, 4.5 }, { 2e-3, 3.5 }, { 3e-3, 2 }, { 3.6e-3, 0 } } },
  pipes = {
    { name = "to the bed", to = "bed", diameter = 0.05, length = 8, lift = 1 },
    { name = "jets", to = "pond", diameter = 0.04, length = 4, orifice = 0.015, orifices = 2 },
  },
}

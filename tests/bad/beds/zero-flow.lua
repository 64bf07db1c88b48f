-- expect: 5: pump.flow is 0: no water goes through the bed
return {
  basin = { shape = "rectangle", length = 4, width = 3, depth = 1 },
  overflow_level = 0.9,
  pump = { flow = 0 },
  bed = { area = 2, depth = 0.6, porosity = 0.4, diameter = 0.02 },
}

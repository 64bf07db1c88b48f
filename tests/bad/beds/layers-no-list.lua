-- expect: layers must be a list
return {
  basin = { shape = "rectangle", length = 4, width = 3, depth = 1 },
  overflow_level = 0.9,
  pump = { flow = 6000 * lph },
  bed = { area = 2, layers = 3 },
}

-- expect: unknown field 'bed.aera': did you mean 'area'?
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 },
  overflow_level = 1, bed = { aera = 3 } }

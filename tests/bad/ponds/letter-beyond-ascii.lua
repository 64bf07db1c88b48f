-- expect: unknown field 'Überlauf'
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 },
  ["Überlauf"] = 1, overflow_level = 1 }

-- expect: unknown field 'storm.intensty': did you mean 'intensity'?
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  storm = { intensty = 50 } }

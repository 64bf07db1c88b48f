-- expect: there is no unit 'feet': did you mean 'ft'?
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 4 * feet }

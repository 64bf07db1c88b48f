-- expect: there is no unit 'meters': did you mean 'm'?
return { basin = { shape = "rectangle", length = 4 * meters, width = 3, depth = 1.2 }, overflow_level = 1 }

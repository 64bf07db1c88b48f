-- expect: there is no unit 'gallons': did you mean 'gal'?
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 1, tank = { volume = 300 * gallons } }

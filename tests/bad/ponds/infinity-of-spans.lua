-- expect: supply.closed must be a list of 1 to 24 entries
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 1, supply = { closed = {} } }

-- expect: supply.weekdays 'funday' is none of
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 1, supply = { weekdays = { "funday" } } }

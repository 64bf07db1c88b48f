-- expect: costs.currency must be a text
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 1, costs = { water = 7.5, currency = {} } }

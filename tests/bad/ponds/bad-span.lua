-- expect: supply.closed[1].from must be "YYYY-MM-DD"
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 1, supply = { closed = { { from = "02-31", to = "03-31" } } } }

-- expect: basin.table row 1: area must be above 0 m2
return { basin = { table = { {0, -1}, {1, 2} } }, overflow_level = 0.9 }

-- expect: row 3: levels must rise from the floor up
return { basin = { table = { {0, 1}, {1, 2}, {1, 3} } }, overflow_level = 0.9 }

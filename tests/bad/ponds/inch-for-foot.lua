-- expect: an inch is not a foot
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 1, stream = { length = 20, width = 1, depth = 1 } }

-- expect: write a word in quotes, as "ellipse"
return { basin = { shape = ellipse, length = 5, width = 4, depth = 1 } }

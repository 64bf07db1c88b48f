-- expect: must be 0.01 to 20
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, lip = 0/0 }

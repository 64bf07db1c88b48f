-- expect: an inch is written inch
return { basin = { shape = "rectangle", length = 12 * ft, width = 9 * ft, depth = 42 * inch }, lip = 39 * in }

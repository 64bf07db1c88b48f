-- expect: 3,5 is written 3.5, and 1,200 is 1200
return { basin = { shape = "rectangle", length = 12 * ft, width = 9 * ft, depth = 42 * inch },
  bed = { length = 3,5 * ft, width = 2 * ft, depth = 2 * ft } }

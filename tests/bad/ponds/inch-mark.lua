-- expect: write a length in feet and inches as 5 * ft + 3 * inch
return { basin = { shape = "rectangle", length = 12 * ft, width = 9 * ft, depth = 42 * inch },
  name = "A", overflow_level = 39", name = "B" }

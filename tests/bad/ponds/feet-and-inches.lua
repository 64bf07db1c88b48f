-- expect: :3: write a length in feet and inches as 5 * ft + 3 * inch
return {
  basin = { shape = "ellipse", length = 5'3", width = 4, depth = 1 },
}

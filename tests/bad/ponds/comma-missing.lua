-- expect: :4: a comma is missing before 'basin'
return {
  name = "A"
  basin = { shape = "ellipse", length = 5, width = 4, depth = 1 },
}

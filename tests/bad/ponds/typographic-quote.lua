-- expect: :3: the line has a typographic quote
return {
  name = “A”,
}

-- A basin and its levels, nothing that runs: no stone, no storm.
return {
  name = "Plain pond",
  basin = { shape = "rectangle", length = 3.1, width = 2.3, depth = 0.9 },
  overflow_level = 0.82, target = 0.79, trigger = 0.76, intake = 0.6,
}

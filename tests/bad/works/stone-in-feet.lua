-- expect: :3: build puts 28.9 m3 of solid stone
return { basin = { length = 4, width = 3, depth = 1.2 }, overflow_level = 1.1,
  build = { wall_stone = 2, floor_gravel = 1 } }

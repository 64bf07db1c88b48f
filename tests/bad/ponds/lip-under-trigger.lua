-- expect: trigger must not lie above the overflow level
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 },
  overflow_level = 1, trigger = 1.1 }

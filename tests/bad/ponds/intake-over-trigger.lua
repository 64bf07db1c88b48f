-- expect: intake must lie under the trigger
return { basin = { shape = "rectangle", length = 4, width = 3, depth = 1.2 }, overflow_level = 1, trigger = 0.9, intake = 0.95 }

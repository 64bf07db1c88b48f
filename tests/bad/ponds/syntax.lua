-- expect: syntax.lua:3:
return {
  overflow_level = = 1 }

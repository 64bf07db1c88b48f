-- expect: syntax.lua:3:
return {
  lip = = 1 }

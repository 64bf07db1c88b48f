-- expect: may hold numbers, texts
return { overflow_level = function() return 1 end }

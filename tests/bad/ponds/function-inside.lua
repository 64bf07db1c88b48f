-- expect: may hold numbers, texts
return { lip = function() return 1 end }

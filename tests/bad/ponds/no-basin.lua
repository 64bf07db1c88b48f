-- expect: basin is missing
return { lip = 1 }

-- expect: basin is missing
return { overflow_level = 1 }

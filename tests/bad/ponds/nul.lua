-- expect: basin is missing
return { basin = "\0\0os" }

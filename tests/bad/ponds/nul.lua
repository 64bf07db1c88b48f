-- expect: basin must be a table of fields, got string
return { basin = "\0\0os" }

-- expect: attempt to index a string value
return { name = ("%99999d"):format(1) }

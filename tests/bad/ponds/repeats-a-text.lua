-- expect: attempt to index a string value
return { name = ("x"):rep(1e9) }

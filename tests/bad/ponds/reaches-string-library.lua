-- expect: attempt to index a string value
local s = ("x"):rep(1e9)
return {}

-- expect: contains itself
local t = {}
t.t = t
return t

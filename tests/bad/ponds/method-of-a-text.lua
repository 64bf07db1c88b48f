-- expect: attempt to index a string value
local meta = ("").__index
return meta

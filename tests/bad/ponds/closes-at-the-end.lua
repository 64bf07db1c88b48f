-- expect: variable 
local t <close> = { __close = function() while true do end end }
return {}

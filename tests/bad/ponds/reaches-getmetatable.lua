-- expect: global 'getmetatable'
getmetatable("").__index = function() while true do end end
return { name = ("x").y }

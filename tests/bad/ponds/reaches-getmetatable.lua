-- expect: there is no unit 'getmetatable'
getmetatable("").__index = function() while true do end end
return { name = ("x").y }

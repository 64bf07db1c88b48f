-- expect: there is no unit 'setmetatable'
setmetatable({}, { __gc = function() while true do end end })

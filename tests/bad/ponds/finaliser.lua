-- expect: global 'setmetatable'
setmetatable({}, { __gc = function() while true do end end })

-- expect: there is no unit 'setmetatable'
return setmetatable({}, { __gc = function() end })

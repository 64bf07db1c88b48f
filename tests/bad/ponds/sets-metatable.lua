-- expect: attempt to call a nil value (global 'setmetatable')
return setmetatable({}, { __gc = function() end })

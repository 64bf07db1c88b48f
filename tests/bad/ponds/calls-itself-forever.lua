-- expect: runs too long for a description
local function f() return f() end
return { overflow_level = f() }

-- expect: calls itself too deeply
local function f(...) return f(1, ...) end
return { overflow_level = f() }

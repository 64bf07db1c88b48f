-- expect: calls itself too deeply
local function f(...) return f(1, ...) end
return { lip = f() }

-- expect: calls itself too deeply
local function f() return 1 + f() end
return { overflow_level = f() }

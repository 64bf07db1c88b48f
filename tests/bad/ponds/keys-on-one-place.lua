-- expect: too large a table
local t, step = {}, ((1 << 14) - 1) * ((1 << 15) - 1)
for i = 1, 1e9 do t[i * step + 7] = true end
return t

-- expect: runs too long for a description (more than 3 seconds)
local t, step = {}, (1 << 13) - 1
for i = 1, 8000 do t[i * step + 7] = true end
local missing = 9000 * step + 7
for i = 1, 1e9 do local x = t[missing] end

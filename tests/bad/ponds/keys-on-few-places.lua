-- expect: too large a table
-- Four places, not one: the limit on the table is met well before the limit
-- on time, on a slow machine too.
local t, step = {}, ((1 << 14) - 1) * ((1 << 15) - 1)
for i = 1, 1e9 do t[i * step + i % 4] = true end
return t

-- expect: uses more than 32 MB
local t = {}
for i = 1, 1e9 do t = { t, {}, {}, {}, {}, {}, {}, {}, { 1, 2, 3, 4, 5, 6, 7, 8 } } end

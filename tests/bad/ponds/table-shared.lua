-- expect: holds too many entries
local t = {}
for depth = 1, 14 do t = { t, t, t, t, t, t, t, t, t, t } end
return t

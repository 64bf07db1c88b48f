-- expect: nested too deeply
local t = {}
for depth = 1, 1000 do t = { t } end
return t

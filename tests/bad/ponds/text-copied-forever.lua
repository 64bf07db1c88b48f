-- expect: makes a text of more than 16 kB
local s = "x"
for i = 1, 23 do s = s .. s end
for i = 1, 1e9 do local t = s .. "y" end

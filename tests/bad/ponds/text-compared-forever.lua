-- expect: runs too long for a description
local s, t = "x", "x"
for i = 1, 13 do s, t = s .. s, t .. t end
for i = 1, 1e9 do local same = s == t end

-- expect: makes a text of more than 16 kB
local s = "x"
while true do s = s .. s end

-- expect: uses more than 32 MB
local s = "x"
while true do s = s .. s end

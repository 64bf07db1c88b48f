-- expect: holds more than 1 MB of text
local s = "x"
for i = 1, 13 do s = s .. s end
local t = {}
for i = 1, 1000 do
  t[i] = {}
  for k = 1, 190 do t[i][k] = s end
end
return t

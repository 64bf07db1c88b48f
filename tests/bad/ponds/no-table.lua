-- expect: must return a table
local x = 1

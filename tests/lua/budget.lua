-- SPDX-License-Identifier: MIT
-- Whatever a file of somebody else's holds, it is refused soon, and the line is told.
local inputs = require "common.inputs"

local SECONDS = 3
local function refused(name, text, want)
  local path = os.tmpname()
  local f = assert(io.open(path .. name, "w"))
  f:write(text)
  f:close()
  local start = os.clock()
  local fine, why = pcall(inputs.pond, path .. name)
  local took = os.clock() - start
  os.remove(path .. name)
  os.remove(path)
  assert(not fine and tostring(why):find(want), ("%s: %s"):format(want, why))
  assert(took < SECONDS, ("%s: %.1f s"):format(want, took))
end

-- brackets that nobody closes, inside the block that has the mistake
local open = "--" .. ("{"):rep(840000) .. "\n"
refused(".lua", "return { basin = {" .. open .. "shape = 'rectangle', length = -4, width = 3, depth = 1 } }", "basin%.length")
local basin = "return { basin = { shape = 'rectangle', length = 4, width = 3, depth = 1 }, overflow_level = 0.9,\n"
refused(".lua", basin .. "bed = { area = 2, layers = {" .. open .. "{ thickness = -1 } } } }", "layers%[1%]%.thickness")
refused(".lua", basin .. "--" .. ("lip = "):rep(140000) .. "\n overflow_level = 9 }", "overflow_level")
refused(".lua", basin .. "['" .. ("a%b{}"):rep(3000) .. "'] = 1, " .. open .. "}", "unknown field")
-- names by the ten thousand
local names = {}
for i = 1, 60000 do names[i] = ('"x%d":1'):format(i) end
refused(".json", "{" .. table.concat(names, ",") .. "}", "more than 1000 fields")
-- what is fast enough keeps its line
refused(".lua", basin .. "bed = { area = 2, layers = { { thickness = 0.1 },\n{ thickness = -1 } } } }", ":3: bed%.layers%[2%]%.thickness")

-- SPDX-License-Identifier: MIT
-- A description as JSON, for the page's samples; 'pond': its numbers in their
-- fields' units.
--     build/tarn bindings/web/samples.lua FILE.lua [pond]
local description = tarn.description(arg[1])
if arg[2] == "pond" then tarn.pond(description) end
io.write(require "common.json".line(description))

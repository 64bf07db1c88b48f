-- SPDX-License-Identifier: MIT
-- A description as JSON, for the page's samples.
--     build/tarn bindings/web/samples.lua FILE.lua
io.write(require "common.json".line(tarn.description(arg[1])))

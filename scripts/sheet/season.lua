-- SPDX-License-Identifier: MIT
-- The year as the ledger sees it, over all methods that the weather allows.
local inputs = require "common.inputs"

--[[
  season(pond, weather, options) -> { ledger, methods, year, normal }
  methods: titles, the one in use first; year, normal: as tarn.season gives them
]]
return function(pond, weather, options)
  local ledger = options.hinted(pond.run, pond, weather, { method = options.method })
  local methods, others = { ledger:report().title }, {}
  for _, method in ipairs(pond:methods(weather)) do
    local ok, other = inputs.tried(pond.run, pond, weather, { method = method })
    if ok and method ~= ledger:report().method then
      methods[#methods + 1], others[#others + 1] = other:report().title, other
    end
  end
  local year = tarn.season(ledger, table.unpack(others))
  return { ledger = ledger, methods = methods, year = year, normal = year.normal }
end

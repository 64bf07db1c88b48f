-- SPDX-License-Identifier: MIT
-- The year as the ledger sees it, over all methods that the weather allows.
local methods_of = require "common.methods"

--[[
  season(pond, weather, options) -> { ledger, methods, year, normal }
  methods: titles, the one in use first; year, normal: as tarn.season gives them
]]
return function(pond, weather, options)
  local ledger = options.hinted(pond.run, pond, weather, { method = options.method })
  local methods, others = { ledger:report().title }, {}
  local beside = methods_of(pond, weather, { method = options.method }, ledger)
  for i, other in ipairs(beside) do
    others[i] = other.ledger
    if not beside.wide then methods[#methods + 1] = other.title end
  end
  local year = tarn.season(ledger, table.unpack(others))
  return { ledger = ledger, methods = methods, wide = beside.wide, year = year, normal = year.normal }
end

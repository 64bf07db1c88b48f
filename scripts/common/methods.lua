-- SPDX-License-Identifier: MIT
-- The methods of evaporation beside the one of a report: the range of its figures.
local inputs = require "common.inputs"

--[[
  methods(pond, weather, options, ledger) -> { { ledger =, title =, lacking = days }, ..., left_out = { ... }, wide = bool }

  options  of the ledger's run
  wide     no second method can be run: the ledgers are those of less and of more evaporation, by as much as methods
           stand apart

  A day that a method lacks is taken from the report's own method, scaled, so that it takes away no range; a method
  that lacks too many is left out: { title =, lacking =, days = }.
]]
return function(pond, weather, options, ledger)
  local own, out = ledger:report().method, { left_out = {} }
  local function with(changes)
    for k, v in pairs(options) do changes[k] = changes[k] or v end
    return changes
  end
  for _, other in ipairs(pond:beside(weather, { method = own })) do
    local ok, run
    if other.compared then
      ok, run = inputs.tried(pond.run, pond, weather, with { method = other.method, beside = own })
    end
    if ok then
      out[#out + 1] = { ledger = run, title = other.title, lacking = other.lacking }
    else
      out.left_out[#out.left_out + 1] = other
    end
  end
  if #out > 0 then return out end
  out.wide = true
  for _, sign in ipairs { -1, 1 } do
    local factor = 1 + sign * tarn.evaporation.spread
    out[#out + 1] = { ledger = pond:run(weather, with { method = own, evaporation = factor }), lacking = 0,
      title = ("Evaporation %s %.0f %%"):format(sign < 0 and "less" or "plus", 100 * tarn.evaporation.spread) }
  end
  return out
end

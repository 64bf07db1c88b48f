-- SPDX-License-Identifier: MIT
-- What water costs by a description.
local text = require "common.text"

local money = {}

-- Price of a m3, water and sewer together, and the currency; nil where none is described.
function money.price(description)
  local costs = description.costs
  if not costs or not (costs.water or costs.sewer) then return nil end
  return (costs.water or 0) + (costs.sewer or 0), costs.currency or ""
end

-- "33.15 USD" for a volume, or nil
function money.of(description, volume)
  local each, currency = money.price(description)
  return each and ("%s %s"):format(text.number(volume * each, 2), currency) or nil
end

-- The same behind other words, ", 33.15 USD"; nothing where no price is described.
function money.behind(description, volume, words)
  local paid = money.of(description, volume)
  return paid and ", " .. (words or "") .. paid or ""
end

return money

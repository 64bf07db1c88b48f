-- SPDX-License-Identifier: MIT
-- Percentiles and sums.
local stats = {}

--[[
  Percentile by linear interpolation between order statistics (Hyndman and
  Fan 1996, definition 7): p 0 is the least, 100 the greatest.
]]
function stats.percentile(list, p)
  local sorted = table.move(list, 1, #list, 1, {})
  table.sort(sorted)
  if #sorted == 0 then return 0 / 0 end
  local at = (#sorted - 1) * p / 100 + 1
  local low = math.floor(at)
  local high = math.min(low + 1, #sorted)
  return sorted[low] + (at - low) * (sorted[high] - sorted[low])
end

function stats.mean(list)
  local sum = 0
  for _, x in ipairs(list) do sum = sum + x end
  return sum / #list
end

-- Field of each row: stats.pick(rows, "topup")
function stats.pick(rows, name)
  local out = {}
  for i, row in ipairs(rows) do out[i] = row[name] end
  return out
end

return stats

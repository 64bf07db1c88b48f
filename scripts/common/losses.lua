-- SPDX-License-Identifier: MIT
-- What a pond loses, from a row of its ledger.
local losses = {}

-- Beside its open water and overflow.
function losses.beside(row)
  return row.bed + row.stream + row.splash + row.seepage + row.withdrawal
end

-- How many times as far all losses lower the level as the open water's
-- evaporation alone; nil where nothing evaporated.
function losses.ratio(row)
  return row.evaporation > 0 and (row.evaporation + losses.beside(row)) / row.evaporation or nil
end

-- The same in words, for every report.
function losses.said(row)
  local ratio = losses.ratio(row)
  if not ratio or ratio < 1.005 then return nil end
  return ("While the pump runs, all losses show at the ruler: over this weather it falls %.2f times as far as the open water alone evaporates (bed, stream, splash and whatever else is described).")
    :format(ratio)
end

return losses

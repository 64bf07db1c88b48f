-- SPDX-License-Identifier: MIT
-- The daily ledger as CSV text, SI units: docs/ledger-csv.md says what stands
-- where.  f(ledger, ledger:days()) -> text
local FLOWS = { "rain", "runoff", "tank", "topup", "evaporation", "bed", "stream", "splash", "seepage",
  "withdrawal", "overflow", "shortfall", "unmet" }

return function(ledger, days)
  local heads = { "date", "rain_mm", "open_water_mm", "grass_mm", "level_m", "losing_area_m2", "pond_m3", "held_m3",
    "in_rain_tank_m3", "pump_running" }
  for _, name in ipairs(FLOWS) do heads[#heads + 1] = (name == "tank" and "from_tank" or name) .. "_m3" end
  for _, name in ipairs(FLOWS) do heads[#heads + 1] = (name == "tank" and "from_tank" or name) .. "_lip_mm" end
  local out = { table.concat(heads, ",") }
  for _, day in ipairs(days) do
    local cells = { day.date }
    for _, key in ipairs { "rain_mm", "open_water_mm", "grass_mm", "level", "area", "volume", "held", "in_tank" } do
      cells[#cells + 1] = ("%.9g"):format(day[key])
    end
    cells[#cells + 1] = day.running and "1" or "0"
    for _, name in ipairs(FLOWS) do cells[#cells + 1] = ("%.9g"):format(day[name]) end
    for _, name in ipairs(FLOWS) do cells[#cells + 1] = ("%.9g"):format(ledger:depth(day[name])) end
    out[#out + 1] = table.concat(cells, ",")
  end
  return table.concat(out, "\n") .. "\n"
end

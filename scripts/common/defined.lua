-- SPDX-License-Identifier: MIT
-- The words of figures that more than one report prints.
local text = require "common.text"

local defined = {}

defined.peak = "Largest week of a year"
defined.week = "A week is an ISO 8601 week, Monday to Sunday, and belongs to the year of its Thursday."
defined.turnover = "the flow an hour over the basin's volume at the lip, stone and all"

-- The pump's hours, from pump.hours of a description: a sentence.
function defined.hours(description)
  local hours = description.pump and description.pump.hours
  if not hours then return "The pump runs all day, all year (pump.hours is not described)." end
  if type(hours) == "number" then return ("The pump runs %g h a day, as described."):format(hours) end
  local parts, from = {}, 1
  for month = 1, 12 do
    if hours[month + 1] ~= hours[month] then
      parts[#parts + 1] = (from == month and "%s %g" or "%s to %s %g"):format(text.months[from],
        table.unpack(from == month and { hours[month] } or { text.months[month], hours[month] }))
      from = month + 1
    end
  end
  if #parts == 1 then return ("The pump runs %g h a day, as described."):format(hours[1]) end
  return "The pump runs, hours a day, as described: " .. table.concat(parts, ", ") .. "."
end

return defined

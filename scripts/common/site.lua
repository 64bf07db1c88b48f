-- SPDX-License-Identifier: MIT
-- The place of a pond in words (section site), as reports say it.
local site = {}

local SHARES = {
  { word = "wind", number = "shelter", field = "evaporation.shelter" },
  { word = "sun", number = "shade", field = "evaporation.shade" },
}

local function undescribed(s, value)
  return ("The %s at the pond is not described: %g of the station's is assumed (site.%s)."):format(s.word, value, s.word)
end

-- What a budget assumes of wind and sun that are not described, for the first lines; nil where both are.
function site.assumed(budget)
  local said = {}
  for _, s in ipairs(SHARES) do
    if not budget[s.word .. "_described"] then said[#said + 1] = undescribed(s, budget[s.number]) end
  end
  return said[1] and table.concat(said, " ")
end

--[[
  What is taken of wind and sun, from a number, a word or neither, and what the method is multiplied by.

  pond     as tarn.pond makes it
  report   of a run of it
  returns  a sentence each
]]
function site.lines(pond, report)
  local place, list = pond:place(), {}
  for i, s in ipairs(SHARES) do
    local value, word = place[s.number], place[s.word]
    if place[s.number .. "_given"] then
      list[i] = ("The %s at the pond is %g of the station's (%s)."):format(s.word, value, s.field)
    elseif word == "not described" then
      list[i] = undescribed(s, value)
    else
      list[i] = ('The %s at the pond is %g of the station\'s: the middle of "%s" (site.%s).'):format(s.word, value, word, s.word)
    end
  end
  if report.centre ~= 1 or report.grass_centre ~= 1 then
    list[#list + 1] = ("The method's open water is multiplied by %.3f and its grass reference by %.3f: the middle of what is known of method, place and surroundings.")
      :format(report.centre, report.grass_centre)
  end
  return list
end

return site

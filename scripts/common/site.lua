-- SPDX-License-Identifier: MIT
-- The place of a pond in words (section site), as reports say it.
local site = {}

local SHARES = {
  { word = "wind", number = "shelter", what = "wind", field = "evaporation.shelter" },
  { word = "sun", number = "shade", what = "sun", field = "evaporation.shade" },
}

-- What stands between the method and the pond.
function site.centre(report)
  if report.centre == 1 then return nil end
  return ("What the method gives is multiplied by %.3f for open water and %.3f for plants: the middle of what is known of method, place and surroundings.")
    :format(report.centre, report.grass_centre)
end

--[[
  What is taken of wind and sun, from a number, a word or neither.

  pond     as tarn.pond makes it
  report   of a run of it
  returns  a sentence each, and what the method is multiplied by
]]
function site.lines(pond, report)
  local place, list = pond:place(), {}
  for i, s in ipairs(SHARES) do
    local value, word = place[s.number], place[s.word]
    if place[s.number .. "_given"] then
      list[i] = ("The %s at the pond is %g of the station's (%s)."):format(s.what, value, s.field)
    elseif word == "not described" then
      list[i] = ("The %s at the pond is not described; %g of the station's is assumed, the middle of what gardens have: give site.%s.")
        :format(s.what, value, s.word)
    else
      list[i] = ('The %s at the pond is %g of the station\'s: the middle of "%s" (site.%s).'):format(s.what, value, word, s.word)
    end
  end
  list[#list + 1] = site.centre(report)
  return list
end

return site

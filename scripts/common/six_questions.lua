-- SPDX-License-Identifier: MIT
-- The questions that a pond begins with, as `tarn new` and the page ask them; what is assumed
-- of everything else until somebody says it; and the description that they make.
local words = tarn.evaporation.site_words()

local six = {}

six.SHAPES = {
  { word = "rectangle", meaning = "straight sides" },
  { word = "ellipse", meaning = "round or oval" },
  { word = "irregular", meaning = "anything else; it is taken to fill 0.8 of its length x width" },
}

six.QUESTIONS = {
  { key = "shape", ask = "What shape is it?", list = six.SHAPES },
  { key = "size", ask = "How long and how wide is it, edge to edge?", hint = "as 24 ft x 14 ft, or 7 m x 4.5 m" },
  { key = "depth", ask = "How deep is it, from the edge down to the floor?", hint = "as 4 ft 3 in, or 1.3 m" },
  { key = "full", ask = "How far below the edge is the water when the pond is full?", hint = "as 4 in, or 10 cm" },
  { key = "sun", ask = "How much sun does the water get?", list = words.sun },
  { key = "wind", ask = "How open to the wind is it?", list = words.wind },
}

-- The ground about the pond and the station, which the page asks next.
six.MORE = {
  { key = "surroundings", ask = "What is the ground about the pond?", list = words.surroundings },
  { key = "station", ask = "How far off was the weather measured?", list = words.station },
}

local inch, ft = tarn.units.inch, tarn.units.ft

-- All our own, no source.  The page answers before depth and level are said.
six.ASSUMED = { side_slope = 0.2, area_factor = 0.8, shape = "rectangle" }
local STEPS = {
  metric = { depth = 0.9, full = 0.1, target = 0.015, trigger = 0.04 },
  us = { depth = 3 * ft, full = 4 * inch, target = 0.5 * inch, trigger = 1.5 * inch },
}

-- Depth of a pond, and levels: full below the edge, target and trigger below full (m), in round figures of the system.
function six.steps(system) return STEPS[system] end

-- answers: shape, length, width, depth, full (m), sun, wind; returns a description in SI.
function six.description(name, a, system)
  local level, step = a.depth - a.full, STEPS[system]
  return {
    name = name, overflow_level = level, target = level - step.target, trigger = level - step.trigger,
    basin = { shape = a.shape, length = a.length, width = a.width, depth = a.depth, side_slope = six.ASSUMED.side_slope,
      area_factor = a.shape == "irregular" and six.ASSUMED.area_factor or nil },
    site = { sun = a.sun, wind = a.wind },
  }
end

return six

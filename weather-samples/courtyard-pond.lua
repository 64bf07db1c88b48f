-- SPDX-License-Identifier: MIT
-- The demo's pond: a scenario of our own, no real place.  A crooked basin along
-- a wall, its bed fed by a slotted pipe in coarse stone.
-- Levels are heights above the floor; a unit is a factor that multiplies.
local depth = 43 * inch                 -- floor to top edge
local lip = depth - 3.5 * inch

return {
  name = "Courtyard pond",

  -- one narrow shelf for the marsh plants, one lower down to stand on
  basin = {
    shape = "irregular", length = 18 * ft + 5 * inch, width = 9 * ft + 2 * inch, depth = depth,
    area_factor = 0.81, side_slope = 0.2,
    shelves = {
      { depth = 13 * inch, width = 10 * inch },
      { depth = 26 * inch, width = 14 * inch },
    },
  },
  overflow_level = lip,                 -- of the overflow
  target = lip - 1.5 * inch,            -- the float valve shuts
  trigger = lip - 2.5 * inch,           -- the float valve opens
  intake = lip - 8 * inch,              -- lowest level for the pump

  -- plants: a few square feet among paving, so more than the 1.2 of a large
  -- stand; winter leaves are dead.  Layers from the bottom; a first layer
  -- without a diameter would be an open chamber.  Voids from memory of such
  -- stone.
  bed = {
    length = 28 * inch, width = 104 * inch,     -- to its lip; along its lip
    layers = {
      { name = "coarse stone", thickness = 8 * inch, diameter = 2 * inch, porosity = 0.42 },
      { name = "planting gravel", thickness = 16 * inch, diameter = 5 / 8 * inch, porosity = 0.38 },
    },
    cover = 3 * inch,                   -- dry gravel over the water
    drop = 22 * inch,                   -- from the bed's lip to the pond
    surface_share = 0.15,               -- the owner's wish
    plant_factor = { 0.4, 0.4, 0.6, 1.0, 1.4, 1.6, 1.6, 1.6, 1.4, 1.0, 0.6, 0.4 },
  },
  plants = "bed: rush, sweet flag, water mint; shelf: marsh marigold, brooklime; deep: one small water lily",

  -- what the bed is for: six young koi on a warm day
  fish = { mass = 8 * lb, protein = 0.38 },
  water = { temp = 22, ph = 8 },
  demand = { turnover = 0.5, fall_width = 14 * inch, fall_depth = 3 / 8 * inch },
  -- k as a trout farm's bed showed it at 3.3 m/d (docs/methods/bed.md);
  -- nobody measured one in a garden bed
  treatment = { ammonia = 0.5, k = 2500, k_low = 3.29, k_high = 3.29 },

  -- room behind the pond, on ground two feet higher: the house wall's footing
  -- is 18 inches deep
  yard = {
    length = 14 * ft, width = 8 * ft, setback = 1 * ft,
    footings = { 18 * inch }, dig = 2 * ft,
  },

  -- flow and head as read off the maker's curve; the valve keeps the bed from
  -- running back through the pipe that feeds it from below
  pump = {
    curve = {
      { 0, 15.5 * ft }, { 700 * gph, 13.8 * ft }, { 1500 * gph, 10.6 * ft },
      { 2300 * gph, 5.4 * ft }, { 2800 * gph, 0 },
    },
    watts = 155, check_valve = true,
  },
  -- the slotted pipe lies under the bed's water: the pump lifts to that water,
  -- 20.5 inches over the overflow and the head on the bed's lip
  pipes = {
    { name = "to the bed", to = "bed", size = "1.5", schedule = "40 pvc", length = 21 * ft, lift = 21.5 * inch,
      fittings = { ["entrance projecting"] = 1, ["90 elbow threaded"] = 3, ["swing check"] = 1, ["ball valve"] = 1,
        exit = 1 } },
    { name = "jet", to = "pond", size = "1", schedule = "40 pvc", length = 9 * ft,
      orifice = 5 / 8 * inch, orifices = 1, fittings = { ["90 elbow threaded"] = 2, ["ball valve"] = 1 } },
  },
  bay = { width = 20 * inch, sill = lip - 13 * inch, pump_minimum = lip - 15 * inch, open_share = 0.6,
          velocity_limit = 0.3 * fps, suction = 2 * inch },

  -- 7 inches at the bed, 5 along the stream, 10 at the end: the bed's drop
  falls = {
    { name = "bed lip", bed = true, kind = "stone", width = 20 * inch, drop = 7 * inch },
    { name = "last fall", kind = "stone", width = 14 * inch, drop = 10 * inch },
  },
  stream = { length = 7 * ft, width = 1.5 * ft, slope = 5 / 84, manning = 0.035 },

  overflow = { width = 14 * inch, clogging = 0.5 },
  storm = { intensity = 2 * inch_per_hour, duration = 30 * minute, years = 25 },
  catchments = { { name = "shed roof", area = 60 * ft2, coefficient = 0.9 } },

  supply = { rate = 4 * gpm },
  splash = 3 * gpd,
  edges = 12 * ft2,
  -- a fence and trees: the pond feels half the wind of the open field
  evaporation = { shelter = 0.5, shade = 0.85 },
  costs = { water = 7.50 / kgal, sewer = 9.00 / kgal, power = 0.14 / kWh, currency = "USD" },

  build = {
    soil = "clay damp", overlap = 1.5 * ft, berm = 1 * yd3, truck = 7 * yd3,
    bed_dug = 2 * ft, stream_dug = 6 * inch,
    floor_gravel = 2 * inch, wall_stone = 8 * inch, round = 0.25 * ton, load = 5 * ton,
    dig_rate = 0.5 * yd3 / hour, liner_rate = 60 * ft2 / hour,
    stone_rate = 0.4 * ton / hour, gravel_rate = 0.8 * ton / hour,
  },
}

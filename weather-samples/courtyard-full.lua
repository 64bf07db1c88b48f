-- The demo's pond again, as its builder describes it for the hand-over sheet:
-- pump, pipes, falls, overflow, storm, stone.  A scenario of our own.
-- Levels are heights above the floor; a unit is a factor that multiplies.
local depth = 4 * ft                    -- floor to top edge
local lip = depth - 3 * inch

return {
  name = "Courtyard pond",

  basin = {
    shape = "ellipse", length = 16 * ft, width = 11 * ft, depth = depth,
    side_slope = 0.25,
    shelves = {
      { depth = 1 * ft, width = 1 * ft },
      { depth = 2 * ft, width = 1 * ft },
    },
  },
  lip = lip,                            -- the overflow
  target = lip - 1.5 * inch,            -- the float valve shuts
  trigger = lip - 2.5 * inch,           -- the float valve opens
  intake = lip - 8 * inch,              -- lowest level for the pump

  bed = {
    area = 25 * ft2, depth = 2 * ft, porosity = 0.38,
    plant_factor = { 0.4, 0.4, 0.6, 1.0, 1.4, 1.6, 1.6, 1.6, 1.4, 1.0, 0.6, 0.4 },
  },
  plants = "bed: reed, rush, flag iris; shelves: marsh marigold, water mint; deep: one water lily",
  -- falls 1 ft over its 8 ft, through cobbles
  stream = { length = 8 * ft, width = 1.5 * ft, slope = 1 / 8, manning = 0.035 },
  falls = {
    { name = "bed lip", bed = true, kind = "stone", width = 18 * inch, drop = 6 * inch },
    { name = "last fall", kind = "stone", width = 14 * inch, drop = 14 * inch },
  },

  -- flow and lift as read off the maker's curve
  pump = {
    curve = {
      { 0, 17 * ft }, { 800 * gph, 14.5 * ft }, { 1600 * gph, 11 * ft },
      { 2400 * gph, 6 * ft }, { 3000 * gph, 0 },
    },
    watts = 170,
  },
  pipes = {
    { name = "to the bed", to = "bed", size = "1.5", schedule = "40 pvc", length = 24 * ft, lift = 3 * ft,
      fittings = { ["entrance projecting"] = 1, ["90 elbow threaded"] = 4, ["ball valve"] = 1, exit = 1 } },
    { name = "jets", to = "pond", size = "1", schedule = "40 pvc", length = 12 * ft,
      orifice = 0.5 * inch, orifices = 2, fittings = { ["90 elbow threaded"] = 2, ["ball valve"] = 1 } },
  },
  bay = { width = 20 * inch, sill = lip - 12 * inch, pump_minimum = lip - 14 * inch, open_share = 0.6,
          velocity_limit = 0.3 * fps, suction = 2 * inch },

  overflow = { width = 12 * inch, clogging = 0.5 },
  storm = { intensity = 2 * inch_per_hour, duration = 30 * minute, years = 25 },
  catchments = { { name = "shed roof", area = 60 * ft2, coefficient = 0.9 } },

  supply = { rate = 4 * gpm },
  splash = 3 * gpd,
  edges = 12 * ft2,
  evaporation = { shelter = 0.5, shade = 0.85 },
  costs = { water = 7.50 / kgal, sewer = 9.00 / kgal, power = 0.14, currency = "USD" },

  build = {
    soil = "clay damp", overlap = 1.5 * ft, berm = 1 * yd3, truck = 7 * yd3,
    floor_gravel = 2 * inch, wall_stone = 8 * inch, round = 0.25 * ton, load = 5 * ton,
    dig_rate = 0.5 * yd3 / hour, liner_rate = 60 * ft2 / hour,
    stone_rate = 0.4 * ton / hour, gravel_rate = 0.8 * ton / hour,
  },
}

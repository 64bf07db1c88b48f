-- The demo's pond: a scenario of our own, no real place.
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
  target = lip - 1 * inch,              -- the float valve shuts
  trigger = lip - 2 * inch,             -- the float valve opens
  intake = lip - 8 * inch,              -- lowest level for the pump

  -- plants: reed and rush, a few square feet among paving, so more than the
  -- 1.2 of a large stand; winter leaves are dead
  bed = {
    area = 25 * ft2, depth = 2 * ft, porosity = 0.38, head = 0.5 * inch,
    plant_factor = { 0.4, 0.4, 0.6, 1.0, 1.4, 1.6, 1.6, 1.6, 1.4, 1.0, 0.6, 0.4 },
  },
  stream = { length = 8 * ft, width = 1.5 * ft, depth = 1 * inch },
  pump = { flow = 1800 * gph, drainback = 6 * gal },
  splash = 3 * gpd,
  edges = 12 * ft2,

  -- a fence and trees: the pond feels half the wind of the open field
  evaporation = { shelter = 0.5, shade = 0.85 },

  costs = { water = 7.50 / kgal, sewer = 9.00 / kgal, power = 0.14, currency = "USD" },
}

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
  -- 1.2 of a large stand; winter leaves are dead.  Layers from the bottom;
  -- their voids are 0.38 of the whole, from memory of such stone.
  bed = {
    length = 37.5 * inch, width = 8 * ft,       -- to its lip; along its lip
    layers = {
      { name = "chamber", thickness = 3 * inch, porosity = 0.9 },     -- crates
      { name = "cobble", thickness = 5 * inch, diameter = 3 * inch, porosity = 0.42 },
      { name = "gravel", thickness = 6 * inch, diameter = 1 * inch, porosity = 0.38 },
      { name = "pea gravel", thickness = 12 * inch, diameter = 3 / 8 * inch, porosity = 0.35 },
    },
    cover = 2 * inch,                   -- dry pea gravel over the water
    drop = 18 * inch,                   -- from the bed's lip to the pond
    head = 0.5 * inch,                  -- water over the bed's lip
    surface_share = 0.18,               -- the owner's wish
    plant_factor = { 0.4, 0.4, 0.6, 1.0, 1.4, 1.6, 1.6, 1.6, 1.4, 1.0, 0.6, 0.4 },
  },

  -- what the bed is for: six young koi on a warm day
  fish = { mass = 8 * lb, protein = 0.38 },
  water = { temp = 22, ph = 8 },
  demand = { turnover = 0.5, fall_width = 14 * inch, fall_depth = 3 / 8 * inch },
  -- k as a trout farm's bed showed it at 3.3 m/d (docs/methods/bed.md);
  -- nobody measured one in a garden bed
  treatment = { ammonia = 0.5, k = 2500, k_low = 3.29, k_high = 3.29 },

  -- room behind the pond: the house wall's footing is 18 inches deep
  yard = {
    length = 14 * ft, width = 8 * ft, setback = 1 * ft,
    footings = { 18 * inch }, dig = 2 * ft,
  },

  stream = { length = 8 * ft, width = 1.5 * ft, depth = 1 * inch },
  pump = { flow = 1800 * gph, drainback = 6 * gal },
  splash = 3 * gpd,
  edges = 12 * ft2,

  -- a fence and trees: the pond feels half the wind of the open field
  evaporation = { shelter = 0.5, shade = 0.85 },

  costs = { water = 7.50 / kgal, sewer = 9.00 / kgal, power = 0.14, currency = "USD" },
}

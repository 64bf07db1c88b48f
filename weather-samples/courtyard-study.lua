-- SPDX-License-Identifier: MIT
-- Questions to the demo's pond: a study file for 'tarn whatif'.
-- Each part may be left out; docs/guide-consultant.md explains them.
return {
  name = "what if",

  scenarios = {
    { name = "2 C warmer", weather = { temperature = 2 } },
    { name = "2 C warmer, summers drier",
      weather = { temperature = 2, rain = { 1, 1, 1, 1, 0.8, 0.7, 0.7, 0.7, 0.8, 1, 1, 1 } } },
    { name = "calmer: a hedge", weather = { wind = 0.7 } },
    { name = "shadier", pond = { evaporation = { shade = 0.7 } } },
    { name = "valve set lower by 2 in", pond = { trigger = (39.5 - 4.5) * inch, target = (39.5 - 3.5) * inch } },
    { name = "no hose in July and August",
      pond = { supply = { closed = { { from = "07-01", to = "08-31" } } } } },
    { name = "no top-up at all", topup = false },
  },

  -- which input matters; also what the samples vary, by chance
  inputs = {
    { field = "bed.area", name = "bed", times = { 0.5, 2 } },
    { field = "bed.plant_factor", name = "plants", times = { 0.7, 1.3 } },
    { field = "evaporation", name = "evaporation", low = 0.85, high = 1.15 },
    { field = "rain", name = "rain", low = 0.8, high = 1.2 },
    { field = "seepage.rate", name = "seepage", low = 0, high = 1.0 },
    { field = "splash", name = "splash", low = 0, high = 10 * gpd },
  },
  sensitivity = 1024,           -- samples for Sobol' indices
  samples = 2000,               -- of all inputs at once
  seed = 1,

  -- rain tank for top-up, fed by this much of the roof
  tank = { roof = 400 * ft2, capacities = { 50 * gal, 100 * gal, 200 * gal, 400 * gal, 800 * gal }, target = 0.8 },

  -- constants of the ordinance at hand, not of this program
  budget = { unit = 0.62, adjustment = 0.55, plant_factor = 1.0 },
}

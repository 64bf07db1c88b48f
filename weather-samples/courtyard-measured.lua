-- SPDX-License-Identifier: MIT
-- Measurements at the start of the demo's pond, invented: tarn commission
return {
  date = "2016-04-18",
  pail_volume = 5 * gal, pail_seconds = 13.0,   -- at the last fall
  pump_off_rise = 3 / 16 * inch, pump_on_drop = 1 / 8 * inch,
  fill_volume = 1365 * gal, fill_level = 38 * inch,
  watts = 149,
}

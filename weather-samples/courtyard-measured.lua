-- A commissioning record of the demo's pond, invented: tarn commission
return {
  date = "2016-04-18",
  pail_volume = 5 * gal, pail_seconds = 13.5,   -- at the last fall
  pump_off_rise = 0.25 * inch, pump_on_drop = 0.2 * inch,
  fill_volume = 1480 * gal, fill_level = 43.5 * inch,
  watts = 164,
}

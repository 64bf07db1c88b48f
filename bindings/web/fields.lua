-- What the page takes from the project, as JSON: the fields that describe a
-- pond, and the sample.
--     build/tarn bindings/web/fields.lua > build/web/fields.json
local json = require "common.json"

local sections = {}
for i, of in ipairs(tarn.pond_fields()) do
  local rows = json.list {}
  for k, row in ipairs(of) do
    if row.kind ~= "choice" then row.choices = nil end
    rows[k] = row
  end
  sections[i] = { section = of.section, rows = rows, beside = json.list(of.beside) }
end
io.write(json.line {
  fields = sections,
  pond = tarn.description("weather-samples/courtyard-pond.lua"),
  map = tarn.description("weather-samples/seattle-map.lua"),
})

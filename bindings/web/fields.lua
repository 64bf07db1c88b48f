-- What the page takes from the project, as JSON: the rows that describe a
-- pond, and the sample.
--     build/tarn bindings/web/fields.lua > build/web/fields.json
local json = require "common.json"

local fields = tarn.pond_fields()
for i, rows in ipairs(fields) do
  local section = { section = rows.section, rows = {} }
  for k, row in ipairs(rows) do
    if row.kind ~= "choice" then row.choices = nil end
    section.rows[k] = row
  end
  fields[i] = section
end
io.write(json.encode {
  fields = fields,
  pond = tarn.description("weather-samples/courtyard-pond.lua"),
  map = tarn.description("weather-samples/seattle-map.lua"),
}, "\n")

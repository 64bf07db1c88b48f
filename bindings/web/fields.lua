-- SPDX-License-Identifier: MIT
-- What the page takes from the project, as JSON: the fields that describe a
-- pond, and the sample.
--     build/tarn bindings/web/fields.lua > build/web/fields.json
local json = require "common.json"

local function sections(list)
  local out = {}
  for i, of in ipairs(list) do
    local rows = json.list {}
    for k, row in ipairs(of) do
      if row.kind ~= "choice" then row.choices = nil end
      rows[k] = row
    end
    out[i] = { section = of.section, rows = rows, beside = of.beside and json.list(of.beside) }
  end
  return out
end

io.write(json.line {
  fields = sections(tarn.pond_fields()),
  leak = sections(tarn.leak_fields()),
  pond = tarn.description("weather-samples/courtyard-pond.lua"),
  map = tarn.description("weather-samples/seattle-map.lua"),
})

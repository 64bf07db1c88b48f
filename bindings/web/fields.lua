-- What the page takes from the project, as JSON: the rows that describe a
-- pond, and the sample.
--     build/tarn bindings/web/fields.lua > build/web/fields.json
local function encode(x)
  if type(x) == "string" then
    return '"' .. x:gsub('[%c"\\]', function(c) return ("\\u%04x"):format(c:byte()) end) .. '"'
  end
  if x == math.huge then return "1e999" end
  if type(x) == "number" then return ("%.17g"):format(x) end
  if type(x) ~= "table" then return tostring(x) end
  local out = {}
  if #x > 0 then
    for i, item in ipairs(x) do out[i] = encode(item) end
    return "[" .. table.concat(out, ",") .. "]"
  end
  for name, item in pairs(x) do out[#out + 1] = encode(name) .. ":" .. encode(item) end
  table.sort(out)
  return "{" .. table.concat(out, ",") .. "}"
end

local fields = tarn.pond_fields()
for i, rows in ipairs(fields) do
  local section = { section = rows.section, rows = {} }
  for k, row in ipairs(rows) do
    if row.kind ~= "choice" then row.choices = nil end
    section.rows[k] = row
  end
  fields[i] = section
end
io.write(encode {
  fields = fields,
  pond = tarn.description("weather-samples/courtyard-pond.lua"),
  map = tarn.description("weather-samples/seattle-map.lua"),
}, "\n")

-- SPDX-License-Identifier: MIT
-- A weather in Tarn's own plain layout, with where it came from in lines that begin with '#'.

local HEADINGS = { tmin = "tmin_c", tmax = "tmax_c", tmean = "tmean_c", rh_min = "rh_min_pct", rh_max = "rh_max_pct",
  rh_mean = "rh_pct", dewpoint = "dewpoint_c", vapour = "vapour_kpa", sunshine = "sunshine_h", solar = "solar_mj_m2",
  rain = "rain_mm", pan = "pan_mm", reference = "reference_mm", open_water = "open_water_mm", pressure = "pressure_kpa" }

-- The shortest decimal that is read back to the same double; a blank is a missing value.
local function number(x)
  if x ~= x then return "" end
  for digits = 15, 17 do
    local s = ("%." .. digits .. "g"):format(x)
    if tonumber(s) == x then return s end
  end
end

local function provenance(path, weather, site)
  local out = { "# Daily weather in the plain layout of Tarn, made by `tarn weather --write` of " .. path:gsub("%c", "?") }
  if site.name and site.name ~= "" then out[#out + 1] = "# station: " .. site.name:gsub("%c", "?") end
  if site.latitude then out[#out + 1] = "# latitude: " .. number(site.latitude) .. " deg" end
  if site.elevation then out[#out + 1] = "# elevation: " .. number(site.elevation) .. " m" end
  for _, note in ipairs(weather:notes()) do out[#out + 1] = "# done: " .. note:gsub("%c", "?") end
  return out
end

-- cleaned(path, weather) -> the text of the file
return function(path, weather)
  local site = weather:site()
  local out, heads, columns = provenance(path, weather, site), { "date" }, {}
  for _, column in ipairs(tarn.weather.columns()) do
    local values = weather:column(column.name)
    if values then
      heads[#heads + 1] = column.name == "wind" and
        (site.wind_height and "wind_ms_" .. number(site.wind_height) .. "m" or "wind_ms") or HEADINGS[column.name]
      columns[#columns + 1] = values
    end
  end
  out[#out + 1] = table.concat(heads, ",")
  local left_out = {}
  for _, hole in ipairs(weather:left_out()) do left_out[hole.first] = hole.last end
  local until_date = ""         -- of the days that are left out
  for i, date in ipairs(weather:dates()) do
    until_date = left_out[date] or until_date
    if date > until_date then
      local row = { date }
      for k, values in ipairs(columns) do row[k + 1] = number(values[i]) end
      out[#out + 1] = table.concat(row, ",")
    end
  end
  return table.concat(out, "\n") .. "\n"
end

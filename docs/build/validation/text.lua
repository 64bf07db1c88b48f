-- SPDX-License-Identifier: MIT
-- Shared by the sections of docs/build/validation.md: text, means, dates.
local text = { SAMPLES = "weather-samples/" }

function text.say(...) io.write(string.format(...)) end

-- A paragraph, its lines broken at 110 columns.
function text.paragraph(s)
  local line = ""
  for word in s:gmatch("%S+") do
    if #line + #word > 109 then
      io.write(line, "\n")
      line = ""
    end
    line = line .. (line == "" and "" or " ") .. word
  end
  io.write(line, "\n\n")
end

function text.column(name, unit, more)
  local c = { name = name, unit = unit }
  for key, value in pairs(more or {}) do c[key] = value end
  return c
end

function text.mean(list)
  local sum = 0
  for _, x in ipairs(list) do sum = sum + x end
  return sum / #list
end

function text.rms(list)
  local sum = 0
  for _, x in ipairs(list) do sum = sum + x * x end
  return math.sqrt(sum / #list)
end

-- "2018-05-23" -> days since 1970
function text.day_number(date)
  local y, m, d = date:match("(%d+)-(%d+)-(%d+)")
  return math.floor(os.time { year = tonumber(y), month = tonumber(m), day = tonumber(d), hour = 12 } / 86400)
end

return text

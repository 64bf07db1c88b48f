-- SPDX-License-Identifier: MIT
-- Plain text for terminals and files: tables, bars, paragraphs.
local text = {}

text.width = 79
text.months = { "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec" }

-- Characters, not bytes, so that columns line up.
local function length(s)
  return utf8.len(s) or #s
end

local function pad(s, n, left)
  local space = (" "):rep(n - length(s))
  return left and s .. space or space .. s
end

--[[
  text.table(heads, rows) -> text

  heads  list of headings; a heading may hold "\n" (the unit on its own line)
  rows   list of lists of strings; the first column is set left, others right;
         a row may be "-" for a rule
]]
function text.table(heads, rows)
  local widths, lines, heights, out = {}, {}, 1, {}
  for c, head in ipairs(heads) do
    lines[c] = {}
    for part in (head .. "\n"):gmatch("(.-)\n") do
      table.insert(lines[c], part)
    end
    heights = math.max(heights, #lines[c])
    widths[c] = 0
    for _, part in ipairs(lines[c]) do
      widths[c] = math.max(widths[c], length(part))
    end
    for _, row in ipairs(rows) do
      if row ~= "-" then widths[c] = math.max(widths[c], length(row[c] or "")) end
    end
  end
  local function put(cells)
    local line = {}
    for c = 1, #heads do line[c] = pad(((cells[c] or ""):gsub("\n", " ")), widths[c], c == 1) end
    out[#out + 1] = (table.concat(line, "  "):gsub("%s+$", ""))
  end
  local total = 2 * (#heads - 1)
  for _, w in ipairs(widths) do total = total + w end
  for h = 1, heights do
    local cells = {}
    for c = 1, #heads do cells[c] = lines[c][h] or "" end
    put(cells)
  end
  out[#out + 1] = ("-"):rep(total)
  for _, row in ipairs(rows) do
    if row == "-" then out[#out + 1] = ("-"):rep(total) else put(row) end
  end
  return table.concat(out, "\n") .. "\n"
end

-- Bars: list of {label, value, shown}; the longest bar fills the line.
function text.bars(rows)
  local most, label, shown, out = 0, 0, 0, {}
  for _, row in ipairs(rows) do
    most = math.max(most, row[2])
    label = math.max(label, length(row[1]))
    shown = math.max(shown, length(row[3]))
  end
  local room = text.width - label - shown - 4
  for _, row in ipairs(rows) do
    local n = most > 0 and math.floor(row[2] / most * room + 0.5) or 0
    if n == 0 and row[2] > 0 then n = 1 end
    out[#out + 1] = pad(row[1], label, true) .. "  " .. pad(row[3], shown) ..
      "  " .. ("#"):rep(n)
  end
  return table.concat(out, "\n") .. "\n"
end

-- Wraps a paragraph; 'lead' begins its first line, spaces the others.
function text.wrap(paragraph, lead)
  lead = lead or ""
  local out, line = {}, lead
  local empty = true
  for word in paragraph:gmatch("%S+") do
    if not empty and length(line) + 1 + length(word) > text.width then
      out[#out + 1] = line
      line, empty = (" "):rep(length(lead)), true
    end
    line = line .. (empty and "" or " ") .. word
    empty = false
  end
  out[#out + 1] = line
  return table.concat(out, "\n") .. "\n"
end

-- A list of sentences, each with its dash.
function text.list(sentences)
  local out = {}
  for i, s in ipairs(sentences) do out[i] = text.wrap(s, "- ") end
  return table.concat(out)
end

function text.heading(s)
  return "\n" .. s .. "\n" .. ("="):rep(length(s)) .. "\n"
end

-- A number with three significant digits or more, thousands set apart.
function text.number(x, digits)
  if x ~= x then return "-" end
  local s = ("%." .. (digits or 0) .. "f"):format(x)
  if tonumber(s) == 0 then s = s:gsub("^-", "") end
  local sign, whole, rest = s:match("^(-?)(%d+)(.*)$")
  whole = whole:reverse():gsub("(%d%d%d)", "%1,"):reverse():gsub("^,", "")
  return sign .. whole .. rest
end

return text

-- SPDX-License-Identifier: MIT
-- Drawings as SVG: shapes, text, and axes; written whole by tarn.write_file.
local svg = {}

-- Colours of charts, by name.  In a report each follows the reader's light or
-- dark (common.style); in a file of its own a drawing keeps these.
svg.colors = {
  ink = "#23302b", faint = "#5f6b65", grid = "#d8ddd5", paper = "#fffefb", water = "#2f6f8f", water_soft = "#b9d3de",
  rain = "#8fb7c9", sun = "#d9a441", earth = "#a8823a", stone = "#9aa59d", plant = "#3f7340", warn = "#b03a12",
  warn_soft = "#f3d3c4",
}

local Drawing = {}
Drawing.__index = Drawing

-- A text as XML and HTML hold it, what is not seen spelt out.
local function escape(s)
  return (tarn.visible(tostring(s), true):gsub("[&<>\"]", { ["&"] = "&amp;", ["<"] = "&lt;", [">"] = "&gt;", ['"'] = "&quot;" }))
end

svg.escape = escape

local ZERO = ("0"):byte()

-- Coordinates to a tenth of a unit: the same text on every machine.
local function n(x)
  local s = ("%.1f"):format(x)
  if s:byte(-1) == ZERO then s = s:sub(1, -3) end
  return s == "-0" and "0" or s
end

-- Attributes in order of name, so that the same drawing has the same bytes.
local function attributes(style)
  local names, out = {}, {}
  for name in pairs(style or {}) do names[#names + 1] = name end
  table.sort(names)
  for i, name in ipairs(names) do out[i] = (' %s="%s"'):format(name:gsub("_", "-"), escape(style[name])) end
  return table.concat(out)
end

local function points(list)
  local out = {}
  for i, p in ipairs(list) do out[i] = n(p[1]) .. "," .. n(p[2]) end
  return table.concat(out, " ")
end

function Drawing:add(text)
  self.parts[#self.parts + 1] = text
end

function Drawing:rect(x, y, width, height, style)
  self:add(('<rect x="%s" y="%s" width="%s" height="%s"%s/>'):format(n(x), n(y), n(width), n(height), attributes(style)))
end

function Drawing:line(x1, y1, x2, y2, style)
  self:add(('<line x1="%s" y1="%s" x2="%s" y2="%s"%s/>'):format(n(x1), n(y1), n(x2), n(y2), attributes(style)))
end

function Drawing:circle(x, y, r, style)
  self:add(('<circle cx="%s" cy="%s" r="%s"%s/>'):format(n(x), n(y), n(r), attributes(style)))
end

-- list of {x, y}
function Drawing:polyline(list, style)
  self:add(('<polyline points="%s" fill="none"%s/>'):format(points(list), attributes(style)))
end

function Drawing:polygon(list, style)
  self:add(('<polygon points="%s"%s/>'):format(points(list), attributes(style)))
end

-- style.anchor: "start", "middle" or "end"
function Drawing:text(x, y, s, style)
  local all = { text_anchor = "start" }
  for key, value in pairs(style or {}) do all[key] = value end
  all.text_anchor, all.anchor = all.anchor or all.text_anchor, nil
  self:add(('<text x="%s" y="%s"%s>%s</text>'):format(n(x), n(y), attributes(all), escape(s)))
end

-- The drawing as text.
function Drawing:source()
  return table.concat({
    '<?xml version="1.0" encoding="UTF-8"?>',
    ('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s" width="%s" height="%s" role="img" ')
      :format(n(self.width), n(self.height), n(self.width), n(self.height)) ..
      ('font-family="system-ui, sans-serif" font-size="12" fill="%s">'):format(svg.colors.ink),
    "<title>" .. escape(self.title) .. "</title>",
    "<desc>" .. escape(self.description) .. "</desc>",
    ('<rect x="0" y="0" width="%s" height="%s" fill="%s"/>'):format(n(self.width), n(self.height), svg.colors.paper),
    table.concat(self.parts, "\n"),
    "</svg>\n",
  }, "\n")
end

-- svg.drawing(width, height, title, description): title and description are
-- what a screen reader says.
function svg.drawing(width, height, title, description)
  return setmetatable({ width = width, height = height, title = title, description = description or title,
    parts = {} }, Drawing)
end

-- A straight scale from [from, to] to [start, stop]: svg.scale(...)(value)
function svg.scale(from, to, start, stop)
  local factor = to ~= from and (stop - start) / (to - from) or 0
  return function(value) return start + (value - from) * factor end
end

-- Round values from low to high, about 'count' of them, for axes.
function svg.ticks(low, high, count)
  local rough = (high - low) / math.max(1, count or 5)
  if not (rough > 0) then return { low } end
  local power = 10 ^ math.floor(math.log(rough, 10))
  local step = power
  for _, factor in ipairs { 1, 2, 5, 10 } do
    step = factor * power
    if step >= rough then break end
  end
  local out, first = {}, math.ceil(low / step - 1e-9)
  for i = first, math.floor(high / step + 1e-9) do out[#out + 1] = i * step end
  return out
end

return svg

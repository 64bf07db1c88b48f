-- SPDX-License-Identifier: MIT
-- A sheet to print and to write readings on beside the pond: one page of A4 or US Letter, with the headings of a log.
local svg = require "common.svg"

local ROWS = 28               -- of 7 mm each: with head and foot they fill a Letter page

-- Heading of the log, words above it, width in percent; by units.
local COLUMNS = {
  us = { { "date", "YYYY-MM-DD", 17 }, { "time", "24 hours", 11 }, { "reading_in", "inches, as 3 1/2", 18 },
    { "meter_gal", "fill line, US gal", 18 }, { "note", "refill, pump off, cleaned ...", 36 } },
  metric = { { "date", "YYYY-MM-DD", 17 }, { "time", "24 hours", 11 }, { "reading_mm", "mm", 18 },
    { "meter_liter", "fill line, L", 18 }, { "note", "refill, pump off, cleaned ...", 36 } },
}

local STYLE = [[
@page { margin: 12mm }
body { font: 10pt/1.3 sans-serif; color: #000; background: #fff; margin: 0 auto; max-width: 184mm }
h1 { font-size: 15pt; margin: 0 0 2mm }
p { margin: 0 0 2mm }
.foot { margin-top: 2mm }
table { border-collapse: collapse; width: 100%; table-layout: fixed }
th, td { border: 0.3mm solid #444; height: 7mm; padding: 0 1.5mm; text-align: left; vertical-align: middle; box-sizing: border-box }
th { height: 11mm; font-weight: normal; font-size: 8pt }
th b { display: block; font: bold 9.5pt monospace }
tr { break-inside: avoid }
code { font: 9pt monospace }
]]

local function table_of(columns)
  local out = { "<table>\n<thead><tr>" }
  for _, c in ipairs(columns) do
    out[#out + 1] = ('<th scope="col" style="width:%d%%"><b>%s</b>%s</th>'):format(c[3], c[1], c[2])
  end
  out[#out + 1] = "</tr></thead>\n<tbody>\n"
  out[#out + 1] = ("<tr>" .. ("<td></td>"):rep(#columns) .. "</tr>\n"):rep(ROWS)
  out[#out + 1] = "</tbody>\n</table>\n"
  return table.concat(out)
end

-- What helps beside the water: where the pump stops, what an inch is.
local function aids(pond, view)
  local f, list = pond:facts(), {}
  local step = view.name == "us" and { "inch", tarn.units.inch } or { "centimetre", tarn.units.cm }
  local at = f.target or f.trigger or f.overflow_level
  list[1] = ("One %s is %s."):format(step[1], view:show("volume", pond:basin():area(at) * step[2]))
  if f.intake then
    list[2] = ("When it reads %s, the pump's intake is bare: add water before."):format(view:show("depth", f.overflow_level - f.intake))
  end
  return " " .. table.concat(list, " ")
end

--[[
  paper(title, pond, view) -> the sheet as HTML

  pond   nil: none is described
]]
return function(title, pond, view)
  local columns, names = COLUMNS[view.name], {}
  for i, c in ipairs(columns) do names[i] = c[1] end
  local heading = svg.escape(title)
  return table.concat {
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n',
    '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; style-src \'unsafe-inline\'">\n',
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n',
    "<title>", heading, ": readings</title>\n<style>\n", STYLE, "</style>\n</head>\n<body>\n<h1>", heading, ": readings</h1>\n",
    "<p>From the mark at the overflow's lip <b>down</b> to the water, at the same hour, twice a week or daily; fill valve shut, or its meter read.",
    svg.escape(pond and aids(pond, view) or ""), " Children drown in inches of water: never leave them alone beside it.</p>\n",
    table_of(columns),
    "<p class=\"foot\">Typed into a spreadsheet and saved as CSV, with this first line: <code>", table.concat(names, ","), "</code><br>",
    "Then: <code>tarn leak POND.lua WEATHER.csv LOG.csv</code>. A note that holds a comma stands in quotes; blank cells are fine.</p>\n",
    "</body>\n</html>\n",
  }
end

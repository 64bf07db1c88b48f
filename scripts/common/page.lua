--[[
  A report as a list of blocks, shown as plain text or as one HTML file.

      local page = require "common.page" (title)
      page:heading "..."  page:paragraph "..."  page:list { ... }
      page:table(heads, rows)  page:bars(rows)  page:figure(svg, caption)
      page:print()                    plain text, figures left out
      page:html(inputs) -> text       one file, nothing fetched

  Tables, bars and lists take what common.text takes.
]]
local text = require "common.text"

local Page = {}
Page.__index = Page

local function add(self, kind, ...)
  table.insert(self.blocks, { kind = kind, ... })
end

function Page:heading(s) add(self, "heading", s) end
function Page:paragraph(s) add(self, "paragraph", s) end
function Page:list(sentences) add(self, "list", sentences) end
function Page:table(heads, rows) add(self, "table", heads, rows) end
function Page:bars(rows) add(self, "bars", rows) end
-- source: an SVG drawing as text (common.svg); shown in HTML only
function Page:figure(source, caption) add(self, "figure", source, caption) end

-- ---- plain text -----------------------------------------------------------

local AS_TEXT = {
  heading = function(b) return text.heading(b[1]) end,
  paragraph = function(b) return text.wrap(b[1]) end,
  list = function(b) return text.list(b[1]) end,
  table = function(b) return text.table(b[1], b[2]) end,
  bars = function(b) return text.bars(b[1]) end,
  figure = function() return "" end,
}

function Page:print()
  io.write(self.title, "\n", ("="):rep(utf8.len(self.title)), "\n")
  for _, block in ipairs(self.blocks) do io.write(AS_TEXT[block.kind](block)) end
end

-- ---- HTML -----------------------------------------------------------------

local STYLE = [[
:root { --ink: #23302b; --paper: #fbfaf6; --line: #c9cfc6; --water: #2f6f8f; --soft: #eef2ec }
@media (prefers-color-scheme: dark) {
  :root { --ink: #e4e8e2; --paper: #1b2220; --line: #46514c; --water: #7fbcd6; --soft: #26302c }
  figure svg { background: #fff }
}
* { box-sizing: border-box }
body { margin: 0 auto; max-width: 60rem; padding: 1.5rem 1rem 4rem; background: var(--paper); color: var(--ink);
  font: 1rem/1.5 Georgia, "Times New Roman", serif }
h1 { font-size: 1.8rem; margin: 0 0 .5rem; border-bottom: 2px solid var(--water) }
h2 { font-size: 1.2rem; margin: 2rem 0 .5rem }
.scroll { overflow-x: auto }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; font-size: .92rem }
th, td { padding: .15rem .7rem .15rem 0; text-align: right; white-space: nowrap; vertical-align: bottom }
th:first-child, td:first-child { text-align: left }
thead th { border-bottom: 1px solid var(--ink); font-weight: 600 }
tbody tr:nth-child(even) { background: var(--soft) }
tr.sum td, tr.sum th { border-top: 1px solid var(--ink); font-weight: 600 }
tbody th { font-weight: 400 }
.bars td:last-child { width: 100%; text-align: left }
.bars i { display: block; height: .8em; background: var(--water) }
figure { margin: 1rem 0 } figure svg { max-width: 100%; height: auto }
figcaption { font-size: .9rem } footer { margin-top: 3rem; font-size: .85rem; border-top: 1px solid var(--line) }
@media print { body { max-width: none; padding: 0; background: #fff; color: #000; font-size: 10pt }
  h2 { break-after: avoid } tr, figure, li { break-inside: avoid } .scroll { overflow: visible } }
]]

local function escape(s)
  return (tostring(s):gsub("[&<>\"]", { ["&"] = "&amp;", ["<"] = "&lt;", [">"] = "&gt;", ['"'] = "&quot;" }))
end

-- "Over-\nflow\nL" as a heading of one line: parts of a word joined again.
local function head(s)
  s = s:gsub("^\n+", ""):gsub("%-\n(%l)", "%1"):gsub("\n+", " ")
  return escape(s)
end

local function html_table(b)
  local out = { '<div class="scroll" tabindex="0" role="region" aria-label="table"><table><thead><tr>' }
  for _, h in ipairs(b[1]) do out[#out + 1] = '<th scope="col">' .. head(h) .. "</th>" end
  out[#out + 1] = "</tr></thead><tbody>\n"
  local sum = false
  for _, row in ipairs(b[2]) do
    if row == "-" then
      sum = true
    else
      out[#out + 1] = (sum and '<tr class="sum">' or "<tr>") .. '<th scope="row">' .. escape(row[1] or "") .. "</th>"
      for c = 2, #b[1] do out[#out + 1] = "<td>" .. escape(row[c] or "") .. "</td>" end
      out[#out + 1] = "</tr>\n"
      sum = false
    end
  end
  out[#out + 1] = "</tbody></table></div>"
  return table.concat(out)
end

local function html_bars(b)
  local most, out = 0, { '<div class="scroll" tabindex="0" role="region" aria-label="bars"><table class="bars"><tbody>\n' }
  for _, row in ipairs(b[1]) do most = math.max(most, row[2]) end
  for _, row in ipairs(b[1]) do
    out[#out + 1] = ('<tr><th scope="row">%s</th><td>%s</td><td aria-hidden="true"><i style="width:%.1f%%"></i></td></tr>\n')
      :format(escape(row[1]), escape(row[3]), most > 0 and 100 * row[2] / most or 0)
  end
  out[#out + 1] = "</tbody></table></div>"
  return table.concat(out)
end

local AS_HTML = {
  heading = function(b) return "<h2>" .. escape(b[1]) .. "</h2>" end,
  paragraph = function(b) return "<p>" .. escape(b[1]) .. "</p>" end,
  list = function(b)
    local out = {}
    for i, s in ipairs(b[1]) do out[i] = "<li>" .. escape(s) .. "</li>" end
    return "<ul>\n" .. table.concat(out, "\n") .. "\n</ul>"
  end,
  table = html_table,
  bars = html_bars,
  figure = function(b)
    local drawing = b[1]:gsub("^<%?xml.-%?>%s*", "")
    return "<figure>\n" .. drawing .. "<figcaption>" .. escape(b[2]) .. "</figcaption>\n</figure>"
  end,
}

-- 'inputs': list of {name, text}, files shown at the end as they were read.
function Page:html(inputs)
  local out = {
    '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    "<title>" .. escape(self.title) .. "</title>", "<style>\n" .. STYLE .. "</style></head>", "<body><main>",
    "<h1>" .. escape(self.title) .. "</h1>",
  }
  for _, block in ipairs(self.blocks) do out[#out + 1] = AS_HTML[block.kind](block) end
  for _, input in ipairs(inputs or {}) do
    out[#out + 1] = ("<details><summary>%s</summary><pre>%s</pre></details>"):format(escape(input[1]), escape(input[2]))
  end
  out[#out + 1] = "</main><footer>Tarn " .. tarn.version .. ". An estimate; local codes and licensed practice rule.</footer>"
  out[#out + 1] = "</body></html>\n"
  return table.concat(out, "\n")
end

return function(title)
  return setmetatable({ title = title, blocks = {} }, Page)
end

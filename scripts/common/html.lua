-- SPDX-License-Identifier: MIT
--[[
  Blocks (common.page) as one HTML file that fetches nothing: its security
  policy forbids it to.  Figures are drawings; where `make report-assets` has put
  report-assets.js beside the scripts (or the program), those that come with
  numbers can be zoomed.  A figure's numbers:

      plot = function() return { panels = { {
        label = "Level", unit = "ft",
        first = "2014-01-01"  or  dates = { "2014-01-01", ... }  or  days = { since 1970-01-01 },
        step = days that a bar covers, down = true where values grow downwards, digits = to be read,
        series = { { name =, kind = "line" | "points" | "bars" | "band", color =,
                     values = { number or false, ... }, low =, high = (of a band) } },
        marks = { { name =, value =, color = } },
      } } } end
]]
local findings = require "common.findings"
local json = require "common.json"
local outputs = require "common.outputs"
local style = require "common.style"
local svg = require "common.svg"

local html = {}

local escape = svg.escape

-- Names of the colours that follow light and dark.
local NAMES = {}
for name, value in pairs(svg.colors) do NAMES[value] = name:gsub("_", "-") end

-- ---- numbers for the script -------------------------------------------------

-- As the script wants them: six digits, null where there is no number, colours
-- by name.
local function shown(value)
  local kind = type(value)
  if kind == "number" then
    return value == value and math.abs(value) < math.huge and tonumber(("%.6g"):format(value)) or json.null
  elseif kind == "string" then
    return NAMES[value] and "--" .. NAMES[value] or value
  elseif kind ~= "table" then
    return value or json.null
  end
  local out = {}
  for key, v in pairs(value) do out[key] = shown(v) end
  return (value[1] ~= nil or next(value) == nil) and json.list(out) or out
end

-- No "<" stands in it: nothing in it can end the element around it.
local function plot_json(plot)
  return (json.line(shown(plot)):gsub("<", "\\u003c"))
end

-- The script, and the digest by which the policy knows it.
local function assets()
  for place in package.path:gmatch("[^;]+") do
    local path = place:gsub("%?%.lua$", "report-assets.js")
    local file, reason, number = io.open(path, "rb")
    if file then
      local text, why = file:read("a")
      file:close()
      if not text then tarn.mistake(path .. ": " .. why) end
      local digest, code = text:match("^// (sha256%-[%w+/=]+)\n(.*)$")
      if not digest then tarn.mistake(path .. ": is not what `make report-assets` writes") end
      return { digest = digest, code = code }
    elseif number ~= outputs.NONE then
      tarn.mistake(reason)
    end
  end
end

-- Sentences: options, commands and dates are not broken.
local function prose(s)
  return (escape(s):gsub("`([^`]+)`", "<code>%1</code>"):gsub("%f[-%w]%-%-%l[%w-]*", "<code>%0</code>")
    :gsub("%f[%w]%d%d%d%d%-%d%d%-%d%d%f[%W]", '<span class="date">%0</span>'))
end

-- ---- blocks -----------------------------------------------------------------

local function scroll(label, class, content)
  return ('<div class="scroll%s" tabindex="0" role="group" aria-label="%s">%s</div>\n'):format(class, escape(label), content)
end

-- "Over-\nflow\nL" as a heading: parts of a word joined again, the unit below.
local function head(s)
  s = escape((s:gsub("^\n+", ""):gsub("%-\n(%l)", "%1")))
  local words, unit = s:match("^(.*)\n(.-)$")
  return words and words:gsub("\n", " ") .. "<br />" .. unit or s
end

-- Cells that say no.
local function is_alarm(cell)
  return cell:find "^NO%f[%W]" or cell == "LOW" or cell == "HIGH" or cell:find "^no: "
end

local function html_row(row, count, class)
  local out = { class and ('<tr class="%s">'):format(class) or "<tr>", '<th scope="row">', escape(row[1] or ""), "</th>" }
  for c = 2, count do
    local cell = row[c] or ""
    out[#out + 1] = (is_alarm(cell) and '<td class="alarm">' or "<td>") .. escape(cell) .. "</td>"
  end
  out[#out + 1] = "</tr>\n"
  return table.concat(out)
end

local function html_table(b, chapter)
  local heads, rows, out = b[1], b[2], { "<table><thead><tr>" }
  for _, h in ipairs(heads) do out[#out + 1] = h:find("%S") and '<th scope="col">' .. head(h) .. "</th>" or "<td></td>" end
  out[#out + 1] = "</tr></thead><tbody>\n"
  for i, row in ipairs(rows) do
    -- the last row under a rule is a sum
    if row ~= "-" then
      out[#out + 1] = html_row(row, #heads, rows[i - 1] == "-" and (i == #rows and "sum" or "rule") or nil)
    end
  end
  out[#out + 1] = "</tbody></table>"
  return scroll("Table: " .. chapter, "", table.concat(out))
end

local function html_bars(b, chapter)
  if b[3] then return "" end
  local most, out = 0, { '<table class="bars"><tbody>\n' }
  for _, row in ipairs(b[1]) do most = math.max(most, row[2]) end
  for _, row in ipairs(b[1]) do
    out[#out + 1] = ('<tr><th scope="row">%s</th><td>%s</td><td aria-hidden="true"><i style="width:%.1f%%"></i></td></tr>\n')
      :format(escape(row[1]), escape(row[3]), most > 0 and 100 * row[2] / most or 0)
  end
  out[#out + 1] = "</tbody></table>"
  return (b[2] and "<h3>" .. escape(b[2]) .. "</h3>\n" or "") .. scroll("Bars: " .. chapter, "", table.concat(out))
end

local function html_figure(b, _, script)
  local drawing, caption, more = b[1](), b[2], b[3]
  drawing = drawing:gsub("^<%?xml.-%?>%s*", "")
  if not more.natural then
    drawing = drawing:gsub('"(#%x+)"', function(c) return NAMES[c] and ('"var(--%s)"'):format(NAMES[c]) end)
  end
  return ("<figure%s>\n%s%s<figcaption>%s</figcaption>\n</figure>\n"):format(more.plot and script and ' class="plot"' or "",
    scroll("Figure: " .. caption, more.natural and " natural" or "", drawing),
    more.plot and script and '<script type="application/json">' .. plot_json(more.plot()) .. "</script>\n" or "", escape(caption))
end

-- What was found; 'ids' has the chapters' anchors, nil on a page that has none.
local function html_found(b, _, _, ids)
  local out = { '<p class="counted">', prose(findings.counted(b[1])), "</p>\n" }
  for _, f in ipairs(findings.worst_first(b[1], ids)) do
    local where = f.place and escape(f.place)
    out[#out + 1] = ('<li><b%s>%s:</b> %s%s</li>\n'):format(f.lead == "NO" and ' class="alarm"' or "", f.lead, prose(f.text),
      not where and "" or ids and (' See <a href="#%s">%s</a>.'):format(ids[f.place], where) or (" See %s."):format(where))
  end
  if #b[1] > 0 then
    table.insert(out, 4, '<ul class="found">\n')
    out[#out + 1] = "</ul>\n"
  end
  return table.concat(out)
end

local AS_HTML = {
  found = html_found,
  paragraph = function(b) return "<p>" .. prose(b[1]) .. "</p>\n" end,
  list = function(b)
    local out = {}
    for i, s in ipairs(b[1]) do out[i] = "<li>" .. prose(s) .. "</li>" end
    return "<ul>\n" .. table.concat(out, "\n") .. "\n</ul>\n"
  end,
  code = function(b) return '<pre tabindex="0">' .. escape(b[1]) .. "</pre>\n" end,
  table = html_table,
  bars = html_bars,
  figure = html_figure,
}

-- One block as HTML.  chapter: its heading; script: whether figures that can be
-- zoomed bring their numbers; ids: [title of a chapter] = its anchor.
function html.block(block, chapter, script, ids)
  return AS_HTML[block.kind](block, chapter, script, ids)
end

-- The numbers of a figure that can be zoomed, as JSON.
function html.plot(block)
  return plot_json(block[3].plot())
end

-- ---- the whole ----------------------------------------------------------------

-- Anchors of the chapters, by title; that of the figures comes first where the
-- answer has some.
local function anchors(blocks, sources)
  local ids, n = {}, 0
  for _, block in ipairs(blocks) do
    if block.kind == "heading" or (block.kind == "figure" and n == 0) then
      n = n + 1
      if block.kind == "heading" then ids[block[1]] = "c" .. n end
    end
  end
  if #sources > 0 then ids.Inputs = "c" .. n + 1 end
  return ids
end

-- Chapters from the blocks: { title, html }; the first is the answer, without a
-- title.  Its figures become a chapter of their own.
local function chapters_of(blocks, script, sources)
  local list, ids = { { html = {} } }, anchors(blocks, sources)
  for _, block in ipairs(blocks) do
    if block.kind == "heading" then
      list[#list + 1] = { title = block[1], html = {} }
    else
      if #list == 1 and block.kind == "figure" then list[2] = { title = "At a glance", html = {} } end
      local chapter = list[#list]
      table.insert(chapter.html, html.block(block, chapter.title or "the answer", script, ids))
    end
  end
  return list
end

local function inputs_chapter(sources)
  local out = {}
  for _, source in ipairs(sources) do
    out[#out + 1] = ('<h3>%s</h3>\n<pre tabindex="0" aria-label="%s">%s</pre>\n'):format(escape(source[1]), escape(source[1]),
      escape(source[2]))
  end
  return { title = "Inputs", html = out }
end

local HEAD = [[
<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8" />
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'%s; base-uri 'none'; form-action 'none'" />
<meta name="viewport" content="width=device-width, initial-scale=1" />
<meta name="color-scheme" content="light dark" />
<title>%s</title>
<style>
%s</style>
</head>
<body>
<header><h1>%s</h1></header>
<main>
]]

local FOOT = [[
</main>
<footer>Tarn %s. An estimate; local codes and licensed practice rule.</footer>
%s</body>
</html>
]]

local function has_plot(blocks)
  for _, block in ipairs(blocks) do
    if block.kind == "figure" and block[3].plot then return true end
  end
end

function html.page(title, blocks, sources)
  local script = has_plot(blocks) and assets()
  local list, links = chapters_of(blocks, script, sources), {}
  if #sources > 0 then list[#list + 1] = inputs_chapter(sources) end
  local answer = table.remove(list, 1)
  for i, c in ipairs(list) do links[i] = ('<li><a href="#c%d">%s</a></li>'):format(i, escape(c.title)) end
  local out = {
    HEAD:format(script and ("; script-src '%s'"):format(script.digest) or "", escape(title), style, escape(title)),
    #answer.html > 0 and '<section class="answer" aria-label="The answer">\n' .. table.concat(answer.html) .. "</section>\n" or "",
    '<nav aria-label="Chapters"><ul>\n', table.concat(links, "\n"), "\n</ul></nav>\n",
  }
  for i, c in ipairs(list) do
    out[#out + 1] = ('<section aria-labelledby="c%d">\n<h2 id="c%d">%s</h2>\n'):format(i, i, escape(c.title))
      .. table.concat(c.html) .. "</section>\n"
  end
  out[#out + 1] = FOOT:format(tarn.version, script and "<script>" .. script.code .. "</script>\n" or "")
  return table.concat(out)
end

return html

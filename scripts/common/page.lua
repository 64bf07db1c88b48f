-- SPDX-License-Identifier: MIT
--[[
  A report as a list of blocks, shown as plain text, Markdown or one HTML file.

      local page = require "common.page" (title)
      page:found(list)                      what checks found (common.findings), first of all
      page:heading "..."                    a chapter
      page:paragraph(format, ...)           as string.format, if more is given
      page:list { ... }                     sentences
      page:table(heads, rows)               as text.table
      page:bars(rows, title, drawn)         as text.bars; drawn: HTML has a figure of them
      page:code(text)                       to be copied as it stands
      page:figure(draw, caption, more)      shown in HTML and Markdown only
      page:print()  page:markdown()  page:html(sources)

  What stands before the first heading is the answer.
]]
local findings = require "common.findings"
local html = require "common.html"
local text = require "common.text"

local Page = {}
Page.__index = Page

local function add(self, kind, ...)
  table.insert(self.blocks, { kind = kind, ... })
end

function Page:heading(s) add(self, "heading", s) end
function Page:paragraph(s, ...) add(self, "paragraph", select("#", ...) > 0 and s:format(...) or s) end
function Page:list(sentences) add(self, "list", sentences) end
function Page:table(heads, rows) add(self, "table", heads, rows) end
function Page:bars(rows, title, drawn) add(self, "bars", rows, title, drawn) end
-- What was found, as "2 checks say NO" and the worst of it; also the exit status
-- of the command (outputs.finish).
function Page:found(list)
  self.status = findings.status(list)
  add(self, "found", list)
end

function Page:code(s) add(self, "code", s) end

-- draw: returns an SVG drawing as text (common.svg).  more.plot: returns the same
-- as numbers, to zoom in (common.html); more.path: where Markdown finds the
-- drawing; more.natural: colours of things, which stay in the dark.
function Page:figure(draw, caption, more) add(self, "figure", draw, caption, more or {}) end

-- The chapters, as a set.
local function chapters_of(self)
  local has = {}
  for _, block in ipairs(self.blocks) do
    if block.kind == "heading" then has[block[1]] = true end
  end
  return has
end

local function render(self, by)
  local out, has = {}, chapters_of(self)
  for i, block in ipairs(self.blocks) do
    local before = self.blocks[i - 1]
    out[i] = by[block.kind](block, before and before.kind, has)
  end
  return table.concat(out)
end

-- ---- plain text -----------------------------------------------------------

-- Tables and bars keep off the text before them.
local function apart(s, before)
  return before and before ~= "heading" and "\n" .. s or s
end

local AS_TEXT = {
  heading = function(b) return text.heading(b[1]) end,
  found = function(b, _, has)
    return text.wrap(findings.counted(b[1])) .. text.list(findings.sentences(b[1], has)) .. "\n"
  end,
  paragraph = function(b) return text.wrap(b[1]) end,
  list = function(b) return text.list(b[1]) end,
  table = function(b, before) return apart(text.table(b[1], b[2]), before) end,
  bars = function(b, before) return b[2] and text.heading(b[2]) .. text.bars(b[1]) or apart(text.bars(b[1]), before) end,
  code = function(b) return "\n" .. b[1] end,
  figure = function() return "" end,
}

function Page:print()
  local title = tarn.visible(self.title)
  io.write(title, "\n", ("="):rep(utf8.len(title)), "\n", tarn.visible(render(self, AS_TEXT), true))
end

-- ---- Markdown -------------------------------------------------------------

-- What would begin a link, a tag or emphasis is taken at its word: names are
-- other people's.  (A star between blanks is a star already, and so is an
-- underscore within a word.)
local function inline(s)
  s = tarn.visible(s, true):gsub("\\(%p)", "\\\\%1"):gsub("<([%a/!?])", "\\<%1"):gsub("&([%w#]+;)", "\\&%1")
    :gsub("%]([%(%[:])", "\\]%1"):gsub("~~", "\\~\\~")
  s = s:gsub("()%*()", function(before, behind)
    if s:sub(before - 1, before - 1):find "^%s?$" and s:find("^%s", behind) then return "*" end
    return "\\*"
  end)
  return (s:gsub("()_()", function(before, behind)
    if s:sub(before - 1, before - 1):find "^%w$" and s:find("^%w", behind) then return "_" end
    return "\\_"
  end))
end

-- Nor does a sentence begin a heading, a list or a quotation.
local function plain(s)
  s = "\n" .. inline(s)
  return (s:gsub("\n( *)([#>+=-])", "\n%1\\%2"):gsub("\n( *%d+)([.)] )", "\n%1\\%2"):sub(2))
end

local function each(list, f)
  local out = {}
  for i, value in ipairs(list) do out[i] = f(value) end
  return out
end

-- A title or a cell is one line, in which nothing is a command to be typed.
local function word(s)
  return (inline((s:gsub("\n", " "))):gsub("`", "\\`"))
end

local function cell(s)
  return word((s:gsub("\n", " "):gsub("^ +", ""):gsub("|", "/")))
end

-- A path as the target of a link: what could end it is written as a byte.
local function address(path)
  return (path:gsub("[^%w%-._~/:+,@]", function(c) return ("%%%02X"):format(c:byte()) end))
end

local function cells(row)
  return "| " .. table.concat(each(row, cell), " | ") .. " |\n"
end

-- Where a reader of Markdown finds a chapter: small letters, words joined.
local function anchor(chapter)
  return "#" .. chapter:lower():gsub("[^%w%s-]", ""):gsub("%s", "-")
end

local function found(b, _, has)
  local out = { plain(findings.counted(b[1])), "\n\n" }
  for _, f in ipairs(findings.worst_first(b[1], has)) do
    out[#out + 1] = ("- **%s:** %s%s\n"):format(f.lead, plain(f.text),
      f.place and (" See [%s](%s)."):format(word(f.place), anchor(f.place)) or "")
  end
  return table.concat(out) .. (#b[1] > 0 and "\n" or "")
end

local AS_MARKDOWN = {
  found = found,
  heading = function(b) return "\n## " .. word(b[1]) .. "\n\n" end,
  paragraph = function(b) return plain(b[1]) .. "\n\n" end,
  list = function(b) return "- " .. table.concat(each(b[1], plain), "\n- ") .. "\n\n" end,
  table = function(b)
    local out = { cells(b[1]), "| --- |" .. (" ---: |"):rep(#b[1] - 1) .. "\n" }
    for _, row in ipairs(b[2]) do
      if row ~= "-" then out[#out + 1] = cells(row) end
    end
    return table.concat(out) .. "\n"
  end,
  bars = function(b)
    local out = {}
    for i, row in ipairs(b[1]) do out[i] = ("- %s: %s"):format(word(row[1]), word(row[3])) end
    return (b[2] and "\n## " .. word(b[2]) .. "\n\n" or "") .. table.concat(out, "\n") .. "\n\n"
  end,
  code = function(b) return "```\n" .. tarn.visible((b[1]:gsub("```", "'''")), true) .. "```\n\n" end,
  figure = function(b) return b[3].path and ("![%s](%s)\n\n"):format(word(b[2]), address(b[3].path)) or "" end,
}

function Page:markdown()
  return "# " .. word(self.title) .. "\n\n" .. render(self, AS_MARKDOWN)
end

-- ---- HTML -----------------------------------------------------------------

-- 'sources': list of {name, text}, files shown at the end as they were read.
function Page:html(sources)
  return html.page(self.title, self.blocks, sources or {})
end

return function(title)
  return setmetatable({ title = title, blocks = {} }, Page)
end

-- A document of headings, paragraphs, lists and tables, as plain text or Markdown.
local text = require "common.text"

local Document = {}
Document.__index = Document

function Document:add(block)
  self.blocks[#self.blocks + 1] = block
end

function Document:title(s) self:add { kind = "title", s } end
function Document:heading(s) self:add { kind = "heading", s } end
function Document:say(format, ...)
  self:add { kind = "paragraph", select("#", ...) > 0 and format:format(...) or format }
end
-- sentences, each with its dash
function Document:list(sentences) self:add { kind = "list", sentences } end
-- as text.table: a heading may hold "\n"
function Document:table(heads, rows) self:add { kind = "table", heads, rows } end
-- a figure beside the document: only Markdown shows it
function Document:figure(path, meaning) self:add { kind = "figure", path, meaning } end

local as_text = {
  title = function(s) return s .. "\n" .. ("="):rep(utf8.len(s) or #s) .. "\n" end,
  heading = text.heading,
  paragraph = text.wrap,
  list = text.list,
  table = text.table,
  figure = function(path, meaning) return text.wrap(meaning .. ": " .. path) end,
}

local function cells(row)
  local out = {}
  for i, cell in ipairs(row) do out[i] = (cell:gsub("\n", " "):gsub("^ +", ""):gsub("|", "/")) end
  return "| " .. table.concat(out, " | ") .. " |\n"
end

local as_markdown = {
  title = function(s) return "# " .. s .. "\n" end,
  heading = function(s) return "\n## " .. s .. "\n\n" end,
  paragraph = function(s) return s .. "\n\n" end,
  list = function(sentences) return "- " .. table.concat(sentences, "\n- ") .. "\n\n" end,
  table = function(heads, rows)
    local out = { cells(heads), "| --- |" .. (" ---: |"):rep(#heads - 1) .. "\n" }
    for _, row in ipairs(rows) do
      if row ~= "-" then out[#out + 1] = cells(row) end
    end
    return table.concat(out) .. "\n"
  end,
  figure = function(path, meaning) return ("![%s](%s)\n\n"):format(meaning, path) end,
}

local function render(self, by)
  local out = {}
  for i, block in ipairs(self.blocks) do out[i] = by[block.kind](block[1], block[2]) end
  return table.concat(out)
end

function Document:text() return render(self, as_text) end
function Document:markdown() return render(self, as_markdown) end

return function() return setmetatable({ blocks = {} }, Document) end

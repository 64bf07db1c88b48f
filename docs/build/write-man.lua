-- SPDX-License-Identifier: MIT
-- Writes the manual pages: one of the program, one of each script, from what
-- their --help says.
--
--     lua5.4 docs/build/write-man.lua build/tarn build/man

local program, folder = arg[1], arg[2]

local function output_of(command)
  local pipe = assert(io.popen(command))
  local text = pipe:read "a"
  assert(pipe:close(), command)
  return text
end

-- Text as roff shows it: dashes that can be copied, no line taken as a request.
local function roff(text)
  text = text:gsub("\\", "\\e"):gsub("%-", "\\-")
  return (text:gsub("^([.'])", "\\&%1"):gsub("\n([.'])", "\n\\&%1"))
end

local version = output_of(program .. " --version"):match "%S+%s+(%S+)"

local FILES = [[
.SH EXIT STATUS
.TP
0
Done.
.TP
1
A failure of the program's, such as a full disk; written files are whole or as
they were.
.TP
2
A mistake of yours, told in one line: a field, an option, a line of a file.
.TP
3
Done, but what was judged does not do (tarn bed).
.SH ENVIRONMENT
.TP
TARN_SCRIPTS
Folder of the scripts, instead of the installed one.
]]

local CAUTION = [[
.SH CAUTION
Tarn designs no structure, promises no water quality and replaces no licensed
practice.  Deep water, dug walls, mains power near water and drinking water hurt
people: local codes rule.
]]

local function write(name, text)
  local f = assert(io.open(folder .. "/" .. name .. ".1", "w"))
  f:write(text)
  f:close()
end

local function head(name, purpose)
  return (".TH %s 1 \"\" \"Tarn %s\" \"User Commands\"\n.SH NAME\n%s \\- %s\n"):format(
    name:upper(), version, name, roff(purpose))
end

-- ---- one script ----------------------------------------------------------------

local function items(lines)
  local out = {}
  for _, line in ipairs(lines) do
    local left, meaning = line:match "^  (%S.-)%s%s+(%S.*)$"
    if not left then left, meaning = line:match "^  (%-%-[%w-]+ %S+) (.*)$" end
    if left then
      out[#out + 1] = ".TP\n.B " .. roff(left) .. "\n" .. roff(meaning) .. "\n"
    elseif line:find "%S" then
      out[#out + 1] = roff(line:match "^%s*(.*)$") .. "\n"
    end
  end
  return table.concat(out)
end

local function script_page(name)
  local blocks = { {} }
  for line in output_of(program .. " " .. name .. " --help"):gmatch "([^\n]*)\n" do
    if line == "" then blocks[#blocks + 1] = {} else table.insert(blocks[#blocks], line) end
  end
  local usage = blocks[1][1]:match "^Usage: (.*)$"
  local purpose = table.concat(blocks[2], " ")
  local page = { head("tarn-" .. name, (purpose:gsub("%.$", ""))),
    ".SH SYNOPSIS\n.B " .. roff(usage) .. "\n.SH DESCRIPTION\n" .. roff(purpose) .. "\n",
    items(blocks[3] or {}), ".SH OPTIONS\n", items(blocks[4] or {}) }
  if blocks[5] then
    page[#page + 1] = ".SH NOTES\n"
    for i = 5, #blocks do
      page[#page + 1] = ".PP\n.nf\n" .. roff(table.concat(blocks[i], "\n")) .. "\n.fi\n"
    end
  end
  page[#page + 1] = FILES .. CAUTION .. ".SH SEE ALSO\n.BR tarn (1)\n"
  write("tarn-" .. name, table.concat(page))
end

-- ---- the program -----------------------------------------------------------------

local list, see = {}, {}
for name, purpose in output_of(program):gmatch "\n  (%l[%w-]*)%s+([^\n]+)" do
  list[#list + 1] = (".TP\n.B tarn %s\n%s\n"):format(roff(name), roff(purpose))
  see[#see + 1] = (".BR tarn\\-%s (1)"):format(roff(name))
  script_page(name)
end
assert(#list > 0, "no scripts")
write("tarn", head("tarn", "water ledger and bed sizing of small garden ponds") .. [[
.SH SYNOPSIS
.B tarn
.I NAME ARGUMENTS
.br
.B tarn
.I FILE.lua ARGUMENTS
.br
.B tarn \-\-version
.SH DESCRIPTION
Runs an installed script by its name, or with all your rights a Lua script of your own, with the module
.B tarn
at hand.  Without arguments it lists the installed scripts; each tells more with
.BR \-\-help .
]] .. table.concat(list) .. FILES .. CAUTION .. ".SH SEE ALSO\n" .. table.concat(see, ",\n") .. "\n")

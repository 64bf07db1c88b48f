-- SPDX-License-Identifier: MIT
-- mutants_changes: the changes that a source file offers to tests/tools/mutants.lua,
-- each in one place: what is replaced, and what by.
local M = { root = "" }

function M.text_of(path)
  local f = assert(io.open(M.root .. path))
  local text = f:read "a"
  f:close()
  return text
end

-- operators, and the ends of ranges
local SWAPS = {
  { " %+ ", " - " }, { " %- ", " + " }, { " %* ", " / " }, { " / ", " * " }, { " %% ", " * " },
  { " < ", " >= " }, { " > ", " <= " }, { " <= ", " < " }, { " >= ", " > " }, { " < ", " <= " }, { " > ", " >= " },
  { " == ", " != " }, { " != ", " == " }, { " && ", " || " }, { " || ", " && " },
  { " %+= ", " -= " }, { " %-= ", " += " }, { " %*= ", " /= " }, { " /= ", " *= " },
  { "fmin%(", "fmax(" }, { "fmax%(", "fmin(" },
}

-- Comments, strings, preprocessor lines are blanked out.
local function code_of(text)
  local function blank(s) return (s:gsub("[^\n]", " ")) end
  text = text:gsub("/%*.-%*/", blank):gsub('"[^"\n]*"', blank):gsub("'[^'\n]*'", blank)
  return (("\n" .. text):gsub("\n#[^\n]*", blank):sub(2))
end

-- Statements that are left out: an assignment to what was declared before, a
-- call whose value nobody takes.  Declarations stay: nothing would build.
local function drop_statements(code, add)
  for _, pattern in ipairs { "\n\t+()[%w_.%[%]>*-]+ [-+*/|&]?= [^;{}]*;()", "\n\t+()[%w_]+%([^;{}]*%);()" } do
    for from, to in code:gmatch(pattern) do
      if not code:find("^return%f[%W]", from) then add(from, to - 1, ";") end
    end
  end
end

-- Two neighbours among the arguments of a call change places; where either order
-- gives the same, nothing is to be seen.
local EITHER = { fmin = true, fmax = true, hypot = true, near = true, step_least = true, step_most = true, strcmp = true,
  all_positive = true }
local function swap_arguments(code, add)
  local name = "[%a_][%w_.>-]*"
  for from, a, between, b, to in code:gmatch("[(,]%s*()(" .. name .. ")(,%s+)(" .. name .. ")()%f[,)]") do
    local f = code:sub(1, from - 1):match "([%w_]+)%([^()]*$"
    -- rows of fields and messages are looked at by tests of their own
    if a ~= b and f and not (EITHER[f] or f == "tarn_fail" or f:find "^%u") then add(from, to - 1, b .. between .. a) end
  end
end

-- A member gives way to the next one of the same unit that the file knows.
local function wrong_fields(code, add)
  local kin, order = {}, {}
  for member in code:gmatch "%f[%w_.>][.>]([%a_][%w_]*)%f[^%w_]" do
    local unit = member:match "_(%w+)$"
    if unit and not kin[member] then
      kin[member], order[unit] = unit, order[unit] or {}
      table.insert(order[unit], member)
    end
  end
  for from, member, to in code:gmatch "[.>]()([%a_][%w_]*)()%f[^%w_(]" do
    local list = order[kin[member] or false]
    for i, other in ipairs(list or {}) do
      if other == member and #list > 1 then add(from, to - 1, list[i % #list + 1]) end
    end
  end
end

local function signs(code, add)
  for _, pattern in ipairs { "[=(,?:]%s+()%-()[%w(]", "%(()%-()[%w(]", "return ()%-()[%w(]" } do
    for from, to in code:gmatch(pattern) do add(from, to - 1, "") end
  end
  for from, to in code:gmatch "[%s(]()!()[%w(]" do add(from, to - 1, "") end
end

-- A constant of a formula by one part in a hundred; a whole number, and what is
-- returned, by one.  Sizes of arrays stay.
local function constants(code, add)
  for from, number, to in code:gmatch "()%f[%w_.](%d+%.%d+[%d]*)()" do
    local x = tonumber(number)
    add(from, to - 1, ("%.17g"):format(x == 0 and 0.01 or x * 1.01))
  end
  for from, number, to in code:gmatch "()%f[%w_.](%d+)()%f[^%w_.]" do
    local before = code:sub(1, from - 1):match "[^\n]*$"
    local kind = code:find("^[%w_ +*]*%]", to) and before:match "^\t*([%a_][%w_ ]-) %**[%w_]+[%w_*, %[%]+]*%[[%w_ +*]*$"
    local declared = kind and not kind:find "%f[%a]return%f[%A]" and not kind:find "%f[%a]else%f[%A]"
    if before:find "sizeof [%w_.>-]+%[$" then declared = true end	-- any entry is as large
    if not declared and math.tointeger(number) then add(from, to - 1, ("%d"):format(math.tointeger(number) + 1)) end
  end
end

-- The function around a place: its name, its text, where it begins; nil: none.
function M.function_at(text, at)
  local open, from = nil, 1
  while true do
    local next_open = text:find("\n{\n", from, true)
    if not next_open or next_open > at then break end
    open, from = next_open, next_open + 1
  end
  local close = open and text:find("\n}", open, true)
  if not close or close < at then return end
  local head = text:sub(1, open)
  local name = head:match "([%a_][%w_]*)%b()%s*$"
  return name, text:sub(open, close), open
end

-- All changes of a file, in the order of their places.
function M.of(path)
  local text = M.text_of(path)
  local code, out, rows, known = code_of(text), {}, {}, {}
  for first, row, last in code:gmatch "\n[\t ]+()%u[%u_]+(%b())()" do
    if row:find "," then for at = first, last do rows[at] = true end end
  end
  local function add(from, to, new)
    -- rows of fields are in docs/build and in reports: `make documents` compares
    local key = from .. ":" .. new
    if rows[from] or known[key] then return end
    known[key] = true
    local line = select(2, text:sub(1, from - 1):gsub("\n", "")) + 1
    out[#out + 1] = { path = path, line = line, old = text:sub(from, to), from = from, to = to, new = new }
  end
  for _, swap in ipairs(SWAPS) do
    for from, to in code:gmatch("()" .. swap[1] .. "()") do add(from, to - 1, swap[2]) end
  end
  drop_statements(code, add)
  swap_arguments(code, add)
  wrong_fields(code, add)
  signs(code, add)
  constants(code, add)
  table.sort(out, function(a, b)
    if a.from ~= b.from then return a.from < b.from end
    return a.new < b.new
  end)
  return out
end

-- A number that stays the same wherever the program runs.
function M.hash(text)
  local h = 1469598103934665603
  for i = 1, #text do h = (h ~ text:byte(i)) * 1099511628211 end
  h = (h ~ (h >> 29)) * 0x5851F42D4C957F2D
  return (h ~ (h >> 32)) & 0x7fffffffffffffff
end

-- What names a change as long as its function stays as it is.
function M.key(change, text)
  local name, body, at = M.function_at(text, change.from)
  return table.concat({ change.path, name or "-", M.hash(body or text), change.from - (at or 0), change.to - change.from,
    (change.new:gsub("%s", "_")) }, ":")
end

return M

-- SPDX-License-Identifier: MIT
-- uncovered: the lines that no test reaches, by file, each with its code, from the
-- text report of gcovr; and why, where the code tells.
--
--     lua5.4 tests/tools/uncovered.lua build/cov/lines.txt

-- What a line that is not reached, or one beside it, has in it, and why that is
-- so.  A line that none of these fits is a gap: a test is wanted.
local REASONS = {
  { "ENOMEM", "an allocation fails: make faults" },
  { "out of memory", "an allocation fails: make faults" },
  { "no_memory", "an allocation fails: make faults" },
  { "errno", "a call of the system fails: make faults" },
  { "abort%(%)", "never reached: Lua's error does not return" },
  { "bind_fail", "hands on a refusal that the library's own tests ask for" },
  { "return status;", "hands on a failure that has its test where it arises" },
  { "return st;", "hands on a failure that has its test where it arises" },
  { 'fail%(r, "not a number"%)', "never reached: its digits were looked at before" },
  { "traceback", "a failure of the program itself" },
  { "from_user", "TARN_SCRIPTS, which the tests of the manual use" },
}

local files, path = {}, nil
for line in io.lines(arg[1]) do
  local name, list = line:match "^(%S+)%s+%d+%s+%d+%s+%d+%%%s*(.*)$"
  if not name and path then list = line:match "^%s+([%d,-]+)$" end
  path = name or (list and path)
  if path and list and list ~= "" and path ~= "TOTAL" then
    files[path] = (files[path] or "") .. list:gsub("%s", "")
    if not files[path]:find ",$" then files[path] = files[path] .. "," end
  elseif not list then
    path = nil
    local only = line:match "^(%S+/%S+%.[ch])$"
    if only then path = only end
  end
end

local names = {}
for name in pairs(files) do names[#names + 1] = name end
table.sort(names)
local total, explained = 0, 0
for _, name in ipairs(names) do
  local code, number = {}, 0
  for line in io.lines(name) do
    number = number + 1
    code[number] = line
  end
  for from, to in files[name]:gmatch "(%d+)%-?(%d*)," do
    for i = tonumber(from), tonumber(to) or tonumber(from) do
      local near, why = (code[i - 1] or "") .. (code[i] or "") .. (code[i + 1] or ""), nil
      for _, reason in ipairs(REASONS) do
        if not why and near:find(reason[1]) then why = reason[2] end
      end
      total = total + 1
      if why then explained = explained + 1 end
      print(("%s:%d: %s%s"):format(name, i, code[i]:match "^%s*(.-)%s*$", why and "   -- " .. why or ""))
    end
  end
end
print(("uncovered: %d lines, %d of them with a reason, %d gaps"):format(total, explained, total - explained))

-- SPDX-License-Identifier: MIT
-- enums: every public function that takes an enum is called in tests/test_enums.c
-- with a number under its enum's first and with one past its last.
--
--     lua5.4 tests/tools/enums.lua    from the project's folder
--
-- The list comes from the headers.  In the test a call stands in a block
--     OUTSIDE(tarn_pan, -1, TARN_PANS) { ... tarn_pan_to_grass(v, ...) ... }
-- whose ends are compared with the enum: the first less one; the last, where that
-- counts the others, or else the last and one.

local function text_of(path)
  local f = assert(io.open(path))
  local text = f:read "a"
  f:close()
  return (text:gsub("/%*.-%*/", ""))
end

-- Of each enum the first value and the last name; of each function its enums.
local ends, wanted = {}, {}
for path in assert(io.popen "ls lib/tarn/*.h lib/tarn/formulas/*.h"):lines() do
  local text = text_of(path)
  for name, body in text:gmatch "enum (tarn_[%w_]+)%s*(%b{})" do
    local first = body:match "^{%s*[%w_]+%s*=%s*(%-?%d+)" or "0"
    ends[name] = { below = ("%d"):format(tonumber(first) - 1) }
    ends[name].last = body:gsub("=[^,}]*", ""):match "([%w_]+)%s*,?%s*}$"
  end
  for declaration in text:gmatch "TARN_API%s+([^;{]*%b()[^;{]*);" do
    declaration = declaration:gsub("%s+", " "):gsub("TARN_PRINTF%b()", "")
    local name, parameters = declaration:match "(tarn_[%w_]+)(%b())%s*$"
    for enum in (parameters or ""):gmatch "[(,] ?enum (tarn_[%w_]+) [%w_]+%f[,)]" do
      wanted[#wanted + 1] = { name = name, enum = enum, path = path }
    end
  end
end
assert(#wanted > 20, "the headers were not understood")

local test, bad = text_of "tests/test_enums.c", 0
local function lacks(w, why)
  bad = bad + 1
  print(("%s: %s takes an enum %s: %s"):format(w.path, w.name, w.enum, why))
end

for _, w in ipairs(wanted) do
  local found
  for enum, below, last, at in test:gmatch "OUTSIDE%((tarn_[%w_]+), ([%w_+-]+), ([%w_+ -]+)%)()" do
    local block = test:match("^%s*(%b{})", at) or test:match("^[^;]*;", at)
    if enum == w.enum and block:find("%f[%w_]" .. w.name .. "%(") then
      found = true
      local e = ends[enum]
      if below ~= e.below or (last ~= e.last and last ~= e.last .. " + 1") then
        lacks(w, ("tests/test_enums.c has the ends %s, %s, the header %s, %s"):format(below, last, e.below, e.last))
      end
    end
  end
  if not found then lacks(w, "tests/test_enums.c calls it with no number outside") end
end
print(("enums: %d functions take one; %d are not called outside its ends"):format(#wanted, bad))
os.exit(bad == 0)

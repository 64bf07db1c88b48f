-- SPDX-License-Identifier: MIT
-- layouts: sizes and offsets of every public struct, as the compiler laid them out.
--
--     lua5.4 tests/tools/layouts.lua list OBJECT            one line a struct
--     lua5.4 tests/tools/layouts.lua compare RECORD OBJECT SONAME
--     lua5.4 tests/tools/layouts.lua accept RECORD OBJECT SONAME VERSION CHANGELOG
--
-- OBJECT is tarn.h compiled with debugging information.  RECORD begins with the name
-- of the shared library.  'compare' fails where a struct is another one than in the
-- record, or where the record is of another library.  'accept' writes the record, but
-- refuses a struct that changed under a name that was released: a program that was
-- built before would hand over too few bytes.

local function lines_of(command)
  local out = {}
  for line in assert(io.popen(command)):lines() do out[#out + 1] = line end
  return out
end

-- ---- what the compiler says ----------------------------------------------------------

-- Entries of the debugging information by their place; children in order.
local function entries_of(object)
  local all, open = {}, {}
  for _, line in ipairs(lines_of("LC_ALL=C readelf --wide --debug-dump=info " .. object)) do
    local depth, at, tag = line:match "^ <(%x+)><(%x+)>: Abbrev Number: %d+ %((DW_TAG_[%w_]+)%)"
    if depth then
      local entry = { tag = tag:sub(8), children = {} }
      depth = tonumber(depth, 16)
      all[at], open[depth] = entry, entry
      if depth > 0 then table.insert(open[depth - 1].children, entry) end
      open.last = entry
    else
      local name, value = line:match "DW_AT_([%w_]+)%s*: (.*)$"
      -- "(strp) (offset: 0x1f): tarn_alloc", "(data1) 8": how it is stored does not matter
      while name and value:find "^%b()" do value = value:gsub("^%b():?%s*", "") end
      if name and open.last then open.last[name] = value:match "^(%S+)" end
    end
  end
  return all
end

local type_of

local function members_of(entry, all)
  local out = {}
  for _, m in ipairs(entry.children) do
    if m.tag == "member" then
      out[#out + 1] = ("%d %s %s"):format(tonumber(m.data_member_location or 0), m.name or "-", type_of(m.type, all))
    end
  end
  return table.concat(out, ", ")
end

local NUMBERS = { ["4"] = "float", ["5"] = "int", ["6"] = "char", ["7"] = "unsigned", ["8"] = "byte", ["2"] = "bool" }
function type_of(reference, all)
  if not reference then return "void" end
  local entry = all[reference:match "<0x(%x+)>"]
  local tag = entry.tag
  if tag == "base_type" then
    return NUMBERS[entry.encoding:match "^%d+"] .. 8 * tonumber(entry.byte_size)
  elseif tag == "pointer_type" then
    return "pointer"
  elseif tag == "array_type" then
    local counts = ""
    for _, range in ipairs(entry.children) do
      local most = range.upper_bound and tonumber(range.upper_bound) + 1 or range.count and tonumber(range.count)
      if range.tag == "subrange_type" then counts = counts .. ("[%s]"):format(most and ("%d"):format(most) or "") end
    end
    return type_of(entry.type, all) .. counts
  elseif tag == "enumeration_type" then
    return "enum" .. 8 * tonumber(entry.byte_size)
  elseif tag == "structure_type" or tag == "union_type" then
    return entry.name or ("{ %s }"):format(members_of(entry, all))
  end
  return type_of(entry.type, all) -- const, typedef
end

-- "struct NAME SIZE: OFFSET MEMBER TYPE, ...", sorted.
local function layouts_of(object)
  local all, out, known = entries_of(object), {}, {}
  for _, entry in pairs(all) do
    if entry.tag == "structure_type" and (entry.name or ""):find "^tarn_" and entry.byte_size and not known[entry.name] then
      known[entry.name] = true
      out[#out + 1] = ("struct %s %d: %s"):format(entry.name, tonumber(entry.byte_size), members_of(entry, all))
    end
  end
  assert(#out > 100, "the debugging information was not understood")
  table.sort(out)
  return out
end

-- ---- the record --------------------------------------------------------------------------

local function read_record(path)
  local f = io.open(path)
  if not f then return nil, {} end
  local soname, rows = f:read "l", {}
  for line in f:lines() do rows[line:match "^struct ([%w_]+)"] = line end
  f:close()
  return soname, rows
end

-- What differs, a sentence each; and whether a program that exists is hurt by it.
local function differences(rows, now)
  local out, hurt, seen = {}, false, {}
  local function say(...) out[#out + 1] = string.format(...) end
  for _, line in ipairs(now) do
    local name, size = line:match "^struct ([%w_]+) (%d+)"
    local was = rows[name]
    seen[name] = true
    if not was then
      say("struct %s is new", name)
    elseif was ~= line then
      hurt = true
      say("struct %s has %s bytes, in the record %s:\n    now    %s\n    record %s", name, size, was:match "^%S+ %S+ (%d+)",
        line:match ": (.*)", was:match ": (.*)")
    end
  end
  for name in pairs(rows) do
    if not seen[name] then
      hurt = true
      say("struct %s is gone", name)
    end
  end
  table.sort(out)
  return out, hurt
end

local what, path, object, soname, version, changelog = table.unpack(arg)
if what == "list" then
  print(table.concat(layouts_of(path), "\n"))
  return
end
local now = layouts_of(object)
local recorded, rows = read_record(path)
local list, hurt = differences(rows, now)
if what == "compare" then
  if recorded ~= soname then table.insert(list, 1, ("the record is of %s, the library is %s"):format(recorded, soname)) end
  for _, line in ipairs(list) do print("abi: " .. line) end
  if #list > 0 then
    print("abi: make abi-accept if that is meant; DEVELOPERS.md, 'Changes that programs notice', says which version it needs")
    os.exit(false)
  end
  print(("abi: %d structs as recorded"):format(#now))
elseif what == "accept" then
  local open = assert(io.open(changelog)):read("a"):find("## " .. version .. ", not yet released", 1, true)
  if hurt and recorded == soname and not open then
    for _, line in ipairs(list) do print("abi: " .. line) end
    print(("abi: %s is released with other structs: raise the version, and with it the name of the library"):format(soname))
    os.exit(false)
  end
  local f = assert(io.open(path, "w"))
  f:write(soname, "\n", table.concat(now, "\n"), "\n")
  f:close()
end

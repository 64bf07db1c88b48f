-- SPDX-License-Identifier: MIT
-- Command lines of the scripts: positions and --options, with help.
local args = {}

local function find(spec, name)
  local names = {}
  for _, option in ipairs(spec.options) do
    if option.name == name then return option end
    if option.was == name then tarn.mistake(("option --%s is now --%s"):format(name, option.name)) end
    names[#names + 1] = option.name
  end
  local near = tarn.nearest(name, names)
  tarn.mistake(("unknown option --%s%s"):format(name,
    near and (": did you mean --" .. near .. "?") or "; --help lists them"))
end

local function convert(option, text)
  local name = "--" .. option.name
  if not text then
    tarn.mistake(("%s needs %s"):format(name, option.value))
  end
  if option.kind == "number" then
    local x = tarn.typed_number(text)
    if not x or x ~= x or math.abs(x) == math.huge then
      tarn.mistake(("%s must be a number, got '%s'"):format(name, text))
    end
    return x
  end
  if option.kind == "length" then
    local x, why = tarn.typed(text, "m", "m")
    if not x then
      tarn.mistake(("%s must be a length as '39 1/2 in', '3 ft 6 in', '25 mm', or a number of m, got '%s', which %s"):format(name, text, why))
    end
    return x
  end
  if option.choices then
    for _, choice in ipairs(option.choices) do
      if choice == text then return text end
    end
    tarn.mistake(("%s must be one of %s, got '%s'"):format(
      name, table.concat(option.choices, ", "), text))
  end
  return text
end

-- The help of a script, from its spec.
function args.help(spec)
  local out = { "Usage: " .. spec.usage, "", spec.purpose, "" }
  for _, position in ipairs(spec.positions) do
    out[#out + 1] = ("  %-22s %s"):format(position.name, position.meaning)
  end
  out[#out + 1] = ""
  for _, option in ipairs(spec.options) do
    local left = "--" .. option.name .. (option.value and " " .. option.value or "")
    out[#out + 1] = ("  %-22s %s"):format(left, option.meaning)
  end
  out[#out + 1] = ("  %-22s %s"):format("--help", "this text")
  if spec.more then out[#out + 1] = "\n" .. spec.more end
  return table.concat(out, "\n") .. "\n"
end

-- A word that a shell reads back as it is.
function args.quoted(word)
  if word:find "^[%w%./_:=,@+-]+$" then return word end
  return "'" .. word:gsub("'", "'\\''") .. "'"
end

-- The command line as it was given, with one more option, and without another choice of it and without what it wrote.
function args.again(name, value)
  local words = { "tarn", (arg[0]:match "([%w_-]+)%.?[lua]*$") }
  for _, part in ipairs(args.typed) do
    local option = part.option
    if not option or option.name ~= name and option.kind ~= "output" and option.kind ~= "prefix" then
      for _, word in ipairs(part) do words[#words + 1] = args.quoted(word) end
    end
  end
  words[#words + 1] = "--" .. name
  words[#words + 1] = value
  return table.concat(words, " ")
end

-- What a shell completes: a line an option, parted by tabs: --name, the word for its value, values that it can be.
local function completion(spec)
  local lines = {}
  for i, option in ipairs(spec.options) do
    local cells = { "--" .. option.name, option.value or "" }
    for _, value in ipairs(option.choices or option.offers and option.offers() or {}) do cells[#cells + 1] = value end
    lines[i] = table.concat(cells, "\t") .. "\n"
  end
  return table.concat(lines) .. "--help\t\n"
end

-- The path of a file that --drawings PREFIX asks for.
function args.prefixed(prefix, ending)
  return prefix .. (prefix:match("/$") and "" or "-") .. ending
end

-- A path ending in / names a folder, which must be there.
local function check_folder(option, prefix)
  local folder = prefix:match("^(.*/)")
  local there = folder and io.open(folder .. ".")
  if there then there:close() end
  if folder and not there then
    tarn.mistake(("--%s %s: there is no folder %s: make it first"):format(option.name, prefix, folder))
  end
end

-- "-" is standard output (common.outputs), for one file, which nothing reads again.
local function check_standard(spec, values)
  local taken
  for _, option in ipairs(spec.options) do
    if values[option.name:gsub("-", "_")] == "-" then
      if option.kind == "record" or option.kind == "prefix" then
        tarn.mistake(("--%s must name %s: - is standard output"):format(option.name,
          option.kind == "record" and "a file, which a later run reads" or "several files"))
      elseif option.kind == "output" then
        if taken then
          tarn.mistake(("--%s and --%s both go to standard output: name a file for one"):format(taken, option.name))
        end
        taken = option.name
      end
    end
  end
end

-- No output may be an input, another output or somebody's record: refused
-- before anything is read.
local function check_files(spec, values)
  local outputs, inputs, record = {}, {}, nil
  check_standard(spec, values)
  for _, position in ipairs(spec.positions) do inputs[#inputs + 1] = values[position.key] end
  for _, option in ipairs(spec.options) do
    local value = values[option.name:gsub("-", "_")]
    if option.kind == "prefix" then
      if value then check_folder(option, value) end
      for _, ending in ipairs(value and option.ends or {}) do outputs[#outputs + 1] = args.prefixed(value, ending) end
    elseif option.kind == "output" or option.kind == "record" then
      if value ~= "-" then outputs[#outputs + 1] = value end
      if option.kind == "record" then record = value end
    elseif option.value == "FILE" and option.joined then
      for path in (value or ""):gmatch("[^,]+") do inputs[#inputs + 1] = path end
    elseif option.value == "FILE" then
      inputs[#inputs + 1] = value
    end
  end
  tarn.check_outputs(outputs, inputs, record)
end

--[[
  args.read(spec) -> table of values by name

  spec.usage, spec.purpose, spec.more    texts
  spec.positions  list of {name, key, meaning, optional, unless = an option that takes its place,
                  more = the option, joined, that takes the words behind the last}
  spec.options    list of {name, was = an earlier name, value = "N", kind = "number" or "length" (m), choices, meaning}
                  value = "FILE": read, or kind = "output" (written; "-" is standard output) or "record" (both);
                  kind = "prefix", ends = {names}: several outputs
                  offers = function() -> values that a shell may complete, where others can be said too
                  joined = true: given again, it adds to what was said, after a comma
                  without 'value' it is a switch
  A name's dashes become underscores: --wind-height is values.wind_height.
]]
function args.read(spec)
  local values, at, i, typed = {}, 0, 1, {}
  args.typed = typed
  while arg[i] do
    local word = arg[i]
    if word == "--completion" and #arg == 1 then
      io.write(completion(spec))
      os.exit(0, true)
    elseif word == "--help" then
      io.write(args.help(spec))
      os.exit(0, true)
    elseif word:sub(1, 2) == "--" then
      local name, inline = word:match("^%-%-([%w-]+)=(.*)$")
      local option = find(spec, name or word:sub(3))
      local key = option.name:gsub("-", "_")
      local from = i
      if not option.value then
        if inline then tarn.mistake("--" .. name .. " takes no value") end
        values[key] = true
      else
        if not inline then i = i + 1 end
        local value = convert(option, inline or arg[i])
        values[key] = option.joined and values[key] and values[key] .. "," .. value or value
      end
      typed[#typed + 1] = { option = option, table.unpack(arg, from, i) }
    else
      at = at + 1
      local position = spec.positions[at]
      local last = spec.positions[#spec.positions]
      if not position and last and last.more then
        values[last.more] = (values[last.more] and values[last.more] .. "," or "") .. word
      elseif not position then
        tarn.mistake(("unexpected argument '%s'; usage: %s"):format(word, spec.usage))
      end
      if position then values[position.key] = word end
      typed[#typed + 1] = { word }
    end
    i = i + 1
  end
  for k, position in ipairs(spec.positions) do
    local instead = position.unless and values[position.unless]
    if k > at and not position.optional and not instead then
      local other = position.unless and (", or --%s in its place"):format(position.unless) or ""
      tarn.mistake(("%s is missing%s; usage: %s"):format(position.name, other, spec.usage))
    elseif k <= at and instead then
      tarn.mistake(("--%s takes the place of %s: leave '%s' out"):format(position.unless, position.name, values[position.key]))
    end
  end
  check_files(spec, values)
  return values
end

return args

-- SPDX-License-Identifier: MIT
-- merge: puts the parts of a study together, and refuses what does not belong
local inputs = require "common.inputs"
local outputs = require "common.outputs"
local records = require "whatif.records"

if #arg < 2 or arg[1]:sub(1, 2) == "--" then
  io.write "Usage: tarn merge WHOLE PART PART ...\n\n"
  io.write "Writes the record WHOLE from the parts that 'tarn whatif --part K/N --record PART' made.\n"
  io.write "WHOLE may be -, standard output. A part that is missing, doubled, unfinished or of another study is refused, by name.\n"
  os.exit(arg[1] == "--help" and 0 or 2, true)
end

local parts, names = {}, {}
for i = 2, #arg do
  names[i - 1] = arg[i]
end
tarn.check_outputs(arg[1] == "-" and {} or { arg[1] }, names, arg[1])
for i = 2, #arg do
  parts[i - 1] = records.slurp(arg[i]) or tarn.mistake(arg[i] .. ": cannot read")
end
local ok, result = inputs.tried(tarn.study.merge, parts)
if not ok then
  -- "part 3 is of another study": say which file that is
  tarn.mistake((tostring(result):gsub("part (%d+)", function(n)
    return names[tonumber(n)] and ("part %s (%s)"):format(n, names[tonumber(n)])
  end)))
end
local words = outputs.write(arg[1], result)
local whole = tarn.study.record(result)
words:write(("%s: %d rows of %d parts, fingerprint %s\n"):format(tarn.visible(arg[1]), whole.rows, #parts, whole.fingerprint))

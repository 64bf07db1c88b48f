-- SPDX-License-Identifier: MIT
-- What a run that was killed left in a folder goes with the next one that writes there;
-- what somebody else's is, or still in use, stays.
local folder = os.tmpname()
os.remove(folder)
local function run(command) assert(os.execute(("cd %s && { %s; }"):format(folder, command))) end
assert(os.execute("mkdir " .. folder))

local OLD, NEW, HELD = ".tarn-0123456789abcdef", ".tarn-00000000000000ff", ".tarn-fedcba9876543210"
local OTHERS = { ".tarn-notes", ".tarn-0123456789ABCDEF", ".tarn-0123456789abcde", ".tarn-0123456789abcdef0", "x.tarn-0123456789abcdef" }
run("touch " .. NEW)
for _, name in ipairs { OLD, HELD, table.unpack(OTHERS) } do run("touch -d '2 minutes ago' " .. name) end
run("ln -s x .tarn-1111111111111111")
-- a program that still runs holds its own until its input ends
local holder = assert(io.popen(("flock %s/%s cat > %s/begun"):format(folder, HELD, folder), "w"))
run("i=0; while flock -n " .. HELD .. " true && [ $i -lt 50 ]; do sleep 0.1; i=$((i + 1)); done")

local function there(name)
  return (os.execute(("[ -e %s/%s ] || [ -L %s/%s ]"):format(folder, name, folder, name)))
end
tarn.write_file(folder .. "/out", "text")
assert(there "out" and not there(OLD), "an old one stays")
assert(there(NEW) and there(HELD), "one that is new or in use went")
for _, name in ipairs(OTHERS) do assert(there(name), name .. " went") end
assert(there ".tarn-1111111111111111", "a link went")
holder:close()
tarn.write_file(folder .. "/out", "again")
assert(not there(HELD), "one that nobody holds any more stays")
os.execute("rm -r " .. folder)

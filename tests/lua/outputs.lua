-- SPDX-License-Identifier: MIT
-- Outputs never destroy: what may be written is known before anything runs, and
-- a file that is replaced keeps all but its text.
local TARN = (os.getenv "TARN_BUILD" or "build") .. "/tarn"
local S = "weather-samples/"
local POND = S .. "courtyard-pond.lua"
local SEATTLE = S .. "seattle_daily_2012_2015.csv"
local MAP = " --map " .. S .. "seattle-map.lua"

local function sh(command)
  local pipe = assert(io.popen("{ " .. command .. "\n} 2>&1"))
  local text = pipe:read "a"
  local _, _, status = pipe:close()
  return text, status
end

local folder = sh("mktemp -d"):match "%S+"

-- A command in that folder, with POND and SEATTLE as their paths.
local function run(command)
  return sh(("T=$PWD/%s; P=$PWD/%s; W=$PWD/%s; M=$PWD/%sseattle-map.lua; cd %s; %s"):format(TARN, POND, SEATTLE, S, folder, command))
end

local function contents(name)
  local f = assert(io.open(folder .. "/" .. name, "rb"))
  local text = f:read "a"
  f:close()
  return text
end

local function expect(command, status, part)
  local text, got = run(command)
  assert(got == status and text:find(part, 1, true), ("%s: exit status %s, not %d: %s"):format(command, got, status, text:sub(1, 300)))
end

-- ---- "-" is standard output ---------------------------------------------------------------

-- The file alone, as it would be written; what else is said goes to the error output, and no file is called "-".
for _, command in ipairs { "topup $P $W --map $M --csv", "sheet $P $W --map $M --csv", "sheet $P $W --map $M --markdown",
  "bed $P --csv", "bed $P --drawing", "convert $P --to", "leak $P $W log.csv --map $M --svg" } do
  run "printf 'date,reading_mm\\n2013-05-01,10\\n2013-05-09,40\\n2013-05-17,60\\n' > log.csv"
  local path = command:find "--to" and "file.json" or "file"
  run(("$T %s %s > page 2> told"):format(command, path))
  expect(("$T %s - > out 2> told; cmp out %s && test ! -e - && echo same"):format(command, path), 0, "same")
end
expect("$T topup $P $W --map $M --csv - --report r.html 2>&1 > out; head -1 out; rm r.html", 0,
  "The report with pictures is in r.html\ndate,")
expect("$T topup $P $W --map $M --csv - --report -", 2, "--csv and --report both go to standard output")
expect("$T sheet $P $W --map $M --drawings -", 2, "--drawings must name several files")
expect("$T whatif nowhere.lua w.csv s.lua --record -", 2, "--record must name a file")
run "echo 'return { inputs = { { field = \"rain\", low = 0.8, high = 1.2 } }, samples = 4 }' > four.lua"
run "echo 'return { inputs = { { field = \"rain\", low = 0.8, high = 1.2 } } }' > none.lua"
expect("$T whatif $P $W four.lua --map $M --csv - | wc -l", 0, "5")
expect("$T whatif $P $W four.lua --map $M --csv - --part 1/2 --record p1 | wc -l", 0, "3")
run "$T whatif $P $W four.lua --map $M --part 2/2 --record p2; $T merge whole p1 p2"
expect("$T merge - p1 p2 2> told | cmp - whole && cat told", 0, "-: 4 rows of 2 parts")
-- an output that nothing would fill is refused, not left out
for _, name in ipairs { "csv", "record" } do
  expect(("$T whatif $P $W none.lua --map $M --%s f; test ! -e f && echo none"):format(name), 0,
    ("--%s is for samples, and none.lua asks for none (samples = N)\nnone"):format(name))
end
expect("$T sheet nowhere.lua w.csv --drawings no/such/", 2, "--drawings no/such/: there is no folder no/such/: make it first")

-- ---- refused before anything runs ------------------------------------------------------

run "mkdir sub; ln -s sub also; ln -s later.csv dangling; echo old > old; ln old other; ln -s old alias"

-- Each pair is one file. The pond is not there: what is said first is said
-- before it is looked for.
for _, pair in ipairs { { "x", "x" }, { "x", "./x" }, { "x", "sub/../x" }, { "sub/x", "also/x" }, { "dangling", "later.csv" },
  { "old", "other" }, { "old", "alias" }, { "alias", "other" }, { "x", "$PWD/x" } } do
  expect(("$T bed nowhere.lua --csv %s --report %s"):format(pair[1], pair[2]), 2, "named for two outputs")
end
expect("$T bed nowhere.lua --csv x --report y", 2, "nowhere.lua: No such file")
expect("$T bed nowhere.lua --csv /dev/null --report /dev/null", 2, "nowhere.lua: No such file")
expect("$T sheet nowhere.lua w.csv --drawings d --csv d-levels.svg", 2, "named for two outputs")
expect("$T sheet nowhere.lua w.csv --drawings sub/ --csv sub/levels.svg", 2, "named for two outputs")
expect("$T bed nowhere.lua --csv out 2> out; cat out", 0, "named for two outputs")
expect("$T topup $P $W --map $M --csv out > out", 2, "named for two outputs: what the program says goes there too")

-- but where it is asked for by its own name, both stand there
expect("$T bed $P --csv /dev/stdout > both; head -1 both; grep -c 'Courtyard pond: the bed' both; test -h /dev/stdout", 0,
  "area_m2,")

run "cp $P pond.lua; cp $W weather.csv; ln pond.lua twin.lua; ln -s weather.csv link.csv; cp pond.lua before.lua"
for _, command in ipairs { "$T topup pond.lua weather.csv --csv pond.lua", "$T topup pond.lua weather.csv --csv twin.lua",
  "$T topup pond.lua weather.csv --report link.csv", "$T topup pond.lua weather.csv --map sub/../old --report old",
  "$T convert pond.lua --to twin.lua", "$T leak pond.lua weather.csv old --svg alias",
  "$T whatif pond.lua weather.csv old --record old", "$T whatif pond.lua weather.csv s.lua --control old --csv other" } do
  expect(command, 2, "is an input of this run, and would be lost: name another file")
end
expect("cmp pond.lua before.lua && cmp pond.lua twin.lua && cat old", 0, "old")

-- somebody's record, by another option or another script
run "printf tarnrow1 > rec"
expect("$T whatif nowhere.lua w.csv s.lua --record rec --csv rec", 2, "named for two outputs")
expect("$T whatif nowhere.lua w.csv s.lua --csv rec", 2, "holds the record of a study, which would be lost")
expect("$T bed $P --report rec", 2, "holds the record of a study, which would be lost")
expect("$T merge rec part ./rec", 2, "is an input of this run")

-- what cannot be written is told before the work, too
expect("$T bed nowhere.lua --csv no/where", 2, "no/where: cannot write: No such file or directory")
expect("$T bed nowhere.lua --csv sub", 2, "sub: cannot write: Is a directory")
expect("$T bed nowhere.lua --csv sub/", 2, "sub/: cannot write: Is a directory")
expect("$T bed nowhere.lua --csv new/", 2, "new/: cannot write")
expect("ln -s loop loop; $T bed nowhere.lua --csv loop", 2, "loop: cannot write: Too many")

-- ---- what stays --------------------------------------------------------------------------

-- mode, links, owner's wish; a name of 252 bytes
expect("touch private; chmod 600 private; $T convert $P --to private.json > log; echo > private.json;"
  .. " chmod 600 private.json; $T convert $P --to private.json; stat -c %a private.json", 0, "600")
assert(contents "private.json":find '"basin"', "not written")
expect("umask 027; $T convert $P --to fresh.json; stat -c %a fresh.json", 0, "640")
expect("echo > real.json; ln -s real.json link.json; $T convert $P --to link.json; readlink link.json", 0, "real.json")
assert(contents "real.json" == contents "private.json", "the link was not followed")
expect("echo > one.json; ln one.json two.json; $T convert $P --to one.json; cmp one.json two.json && stat -c %h one.json", 0, "2")
expect("echo keep > fixed.json; chmod 444 fixed.json; $T convert $P --to fixed.json", 2, "fixed.json: cannot write: Permission denied")
assert(contents "fixed.json" == "keep\n")
local long = ("n"):rep(247) .. ".json"
expect("$T convert $P --to " .. long, 0, "Written")
expect("$T convert $P --to " .. long, 0, "Written")
assert(contents(long) == contents "private.json")

-- a pipe with a name takes what is written; whoever reads it may go away
expect("mkfifo pipe; timeout 20 cat pipe > got & timeout 20 $T bed $P --csv pipe > log; wait; head -c 20 got", 0, "area_m2,")
expect("head -c 10 pipe > got & timeout 20 $T bed $P --csv pipe > log; wait; test -p pipe && echo still", 0, "still")
expect("$T bed $P --csv /dev/full", 2, "/dev/full: cannot write: No space left on device")

-- all or none: nothing new is left, and nothing old is touched, where one of
-- them finds no room
expect("echo old > a.csv; ulimit -f 100; $T bed $P --csv a.csv --report b.html", 2, "cannot write: File too large")
assert(contents "a.csv" == "old\n")
expect("ls -A | grep -c -e b.html -e '^[.]'", 1, "0")

-- ---- whatever ends the program -----------------------------------------------------------

-- tarn.write_file again and again until it is ended: an old text or a new one,
-- and no other file
local f = assert(io.open(folder .. "/write.lua", "w"))
f:write [[
local text = ("x"):rep(300000)
for i = 1, 3000 do tarn.write_file("target", text .. i) end
]]
f:close()
for _, signal in ipairs { "TERM", "HUP", "ALRM", "USR1", "KILL" } do
  for _, delay in ipairs { "0.03", "0.05", "0.08" } do
    run(("rm -f target core*; ulimit -c 0; $T write.lua & sleep %s; kill -%s $!; wait $!"):format(delay, signal))
    local names = run "ls -A | grep '^[.]'"
    assert(names == "" or signal == "KILL" and #names < 24, signal .. " leaves " .. names)
    if names == "" then run "rm -f .tarn-*" end
    local target = io.open(folder .. "/target", "rb")
    local size = target and #target:read "a" or 300001
    if target then target:close() end
    assert(size > 300000, ("%s: %d bytes"):format(signal, size))
  end
end

-- ---- names that would be obeyed ------------------------------------------------------------

local BAD = { ["\27[31mred"] = "\\x1B[31mred", ["a\u{202E}b"] = "a\\u{202E}b", ["a\u{9B}2J"] = "a\\u{9B}2J", ["a\nb"] = "a\\x0Ab",
  ["a\255b"] = "a\\xFFb", ["a\u{2066}b"] = "a\\u{2066}b", ["a\r\27b"] = "a\\x0D\\x1Bb" }

local function quoted(s) return "'" .. s .. "'" end

for name, shown in pairs(BAD) do
  assert(tarn.visible(name) == shown, tarn.visible(name))
  assert(not tarn.visible(name, true):find("[\27\255]", 1), name)
  -- a message; the line that says where a file is; a report that names its source
  local text, status = run("$T bed " .. quoted(name))
  assert(status == 2 and text:find("^tarn: [^%c]+\n$"), text)
  text = run("sed 's/^  name = .*//' $P > " .. quoted(name) .. "; $T bed " .. quoted(name) .. " --report "
    .. quoted(name .. ".html") .. "; grep -v ' is in ' " .. quoted(name .. ".html"))
  assert(text:find(shown, 1, true), text:sub(1, 300))
  for _, c in ipairs { "\27", "\u{202E}", "\u{2066}", "\u{9B}", "\255" } do assert(not text:find(c, 1, true), shown) end
end
assert(tarn.visible "Ă pond, 池塘, \u{1F469}\u{200D}\u{1F33E}, बगीचा" == "Ă pond, 池塘, \u{1F469}\u{200D}\u{1F33E}, बगीचा")
assert(tarn.visible("a\tb\r\nc\rd\n", true) == "a\tb\r\nc\\x0Dd\n")

-- Markdown takes names at their word.
local new_page = require "common.page"
local page = new_page "*a* [x](y) <b> `q` _z_ &amp; |"
page:paragraph "# no heading, 3 * inch, bed.plant_factor, 2 < 3, `tarn topup`, <script>"
page:list { "- no list", "1. nor this", "a]: b" }
page:table({ "*", "b" }, { { "a|b\nc", "<i>" }, { "- -", "-" } })
page:figure(nil, "*cap*", { path = "a) b(c.svg" })
page:code "```\n<b>"
local text = page:markdown()
assert(text == [==[
# \*a\* [x\](y) \<b> \`q\` \_z\_ \&amp; |

\# no heading, 3 * inch, bed.plant_factor, 2 < 3, `tarn topup`, \<script>

- \- no list
- 1\. nor this
- a\]: b

| \* | b |
| --- | ---: |
| a/b c | \<i> |
| - - | - |

![\*cap\*](a%29%20b%28c.svg)

```
'''
<b>```

]==], text)

sh("rm -rf " .. folder)

-- SPDX-License-Identifier: MIT
-- Descriptions as JSON: values, escapes, and what is refused, with line and column.
local path = os.tmpname() .. ".json"

local function read(text)
  local f = assert(io.open(path, "w"))
  f:write(text)
  f:close()
  return tarn.description(path)
end

local function refuses(text, part)
  local fine, message = pcall(read, text)
  assert(not fine and tostring(message):find(part, 1, true), text .. ": " .. tostring(message))
end

local t = read [[
{ "a": 1, "b": -2.5e+1, "c": 1E-2, "d": true, "e": false, "f": [], "g": {}, "h": [1, [2, 3], {"i": "x"}],
  "text": "\"\\\/\b\f\n\r\t", "\u0041": "\u00e9\u20ac\ud83d\ude00\u007f", "zero": 0.0, "minus": -0 }
]]
assert(t.a == 1 and t.b == -25 and t.c == 0.01 and t.d == true and t.e == false)
assert(#t.f == 0 and next(t.g) == nil and t.h[2][2] == 3 and t.h[3].i == "x")
assert(t.text == "\"\\/\b\f\n\r\t" and t.A == "é€😀\127")
assert(t.zero == 0 and t.minus == 0)

refuses('{"a":"\\u12x4"}', ":1:11: \\u takes four hexadecimal digits")
refuses('{"a":"\\udc00"}', "half of a surrogate pair")
refuses('{"a":"\\ud800\\u0041"}', "half of a surrogate pair")
refuses('{"a":"\1"}', "control character in a text")
refuses('{"a":-}', "expected a value")
refuses('{"a":' .. ("1"):rep(70) .. "}", "a number is too long")
refuses('{"a":1 "b":2}', "expected ',' or '}'")
refuses('{"a":[1', "expected ',' or ']'")
-- what an editor puts before the text is no part of it
assert(read "\xef\xbb\xbf{ \"a\": 3 }".a == 3)
refuses("\xef\xbb\xbf{ \"a\": }", ":1:8: expected a value")
refuses("{\"a\":\n\n  tru}", ":3:3: expected a value")
os.remove(path)

-- json: a pond description as JSON, for the page or another program
local args = require "common.args"
local inputs = require "common.inputs"
local json = require "common.json"

local asked = args.read {
  usage = "tarn json POND.lua",
  purpose = "Writes a pond description as JSON: the same fields, in SI units.",
  positions = { { name = "POND.lua", key = "pond", meaning = "description of the pond" } },
  options = {},
}
local _, description = inputs.pond(asked.pond)
io.write(json.encode(description), "\n")

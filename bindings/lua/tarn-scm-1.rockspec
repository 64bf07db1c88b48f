-- luarocks make bindings/lua/tarn-scm-1.rockspec, from the project's folder.
-- Needs a C compiler, make, pkg-config, the headers of Lua 5.4 and of libcsv.
rockspec_format = "3.0"
package = "tarn"
version = "scm-1"
source = { url = "." }
description = {
   summary = "Water ledger and bed sizing of small garden ponds",
   detailed = "Keeps the water ledger of a small recirculating garden pond on measured weather, and sizes the planted gravel bed that filters it.",
   license = "MIT",
}
dependencies = { "lua ~> 5.4" }
external_dependencies = { CSV = { header = "csv.h", library = "csv" } }
build = {
   type = "command",
   build_command = "mkdir -p build/rock && touch build/rock/ready && make B=build/rock build/rock/tarn.so",
   install = { lib = { tarn = "build/rock/tarn.so" } },
}

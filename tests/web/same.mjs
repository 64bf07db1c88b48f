// SPDX-License-Identifier: MIT
// The page's program is the native one: for each sample and command the same
// status, the same text, the same message and the same files, byte for byte.
//     node tests/web/same.mjs build
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { compiled, filesOf, run } from "./program.mjs";

const build = process.argv[2] || "build", out = join(build, "web/same");
const S = "weather-samples/", G = "tests/good/", POND = S + "courtyard-pond.lua", STUDY = S + "courtyard-study.lua";
const SEATTLE = [S + "seattle_daily_2012_2015.csv", "--map", S + "seattle-map.lua"], DUTCH = [S + "de_bilt_daily_1980_2019.csv"];
const beds = readdirSync(G).filter((name) => name.endsWith("-bed.lua")).map((name) => G + name);
const file = (name) => join(out, name);

const COMMANDS = [
  [], ["--version"], ["topup", "--help"], ["no-such"],
  ["topup", POND, ...SEATTLE, "--csv", file("a.csv"), "--report", file("a.html")],
  ["topup", POND, ...SEATTLE, "--units", "metric", "--all-weeks", "--method", "hargreaves"],
  ["topup", POND, ...DUTCH, "--units", "metric", "--bridge", "3", "--report", file("b.html")],
  ["topup", POND, S + "fallon_daily_2015.csv", "--latitude", "39.46", "--elevation", "1208"],
  ["topup", G + "plain-pond.lua", ...SEATTLE],
  ["topup", POND, "missing.csv"], ["topup", SEATTLE[0], POND],
  ["bed", POND, "--units", "metric", "--csv", file("c.csv"), "--drawing", file("c.svg"), "--report", file("c.html")],
  ...beds.map((bed) => ["bed", bed]),
  ["sheet", POND, ...SEATTLE, "--report", file("d.html")], ["sheet", POND, "--materials"],
  ["sheet", POND, "--units", "metric"], ["sheet", S + "courtyard-measured.lua"],
  ["leak", POND, ...SEATTLE, "--log", S + "courtyard-log.csv"],
  ["leak", POND, SEATTLE[0], S + "courtyard-log.csv", ...SEATTLE.slice(1), "--intervals", "--svg", file("e.svg"), "--report", file("e.html")],
  ["leak", "--off-hours", "24", "--off-drop", "0.5", "--off-bucket", "0.25", "--area", "100"],
  ["commission", S + "courtyard-measured.lua"], ["commission", POND],
  ["commission", POND, S + "courtyard-measured.lua", "--units", "metric"],
  ["whatif", POND, SEATTLE[0], STUDY, ...SEATTLE.slice(1), "--csv", file("f.csv"), "--report", file("f.html")],
  ["weather", ...SEATTLE], ["weather", ...DUTCH],
  ["convert", POND, "--to", file("g.json")], ["convert", G + "lip-bed.lua", "--to", file("h.json")],
  ...readdirSync("tests/bad").filter((name) => name.endsWith(".csv")).map((name) => ["topup", POND, "tests/bad/" + name]),
  // those that never end are stopped by the clock; of two unknown keys either is named
  ...readdirSync("tests/bad/ponds").filter((name) => !/forever|loops|few-places|one-brace/.test(name)).map((name) => ["bed", "tests/bad/ponds/" + name]),
];

// Seconds that a run took are its own.
const timed = (text) => text.replace(/\d+ (ns|ms|s) (a|per)\b/g, "TIME");

const module = compiled(build);
const inputs = filesOf("scripts", "weather-samples", "tests/good", "tests/bad");
// the native program finds it beside itself
const assets = join(build, "report-assets.js");
if (existsSync(assets)) inputs.set("scripts/report-assets.js", new Uint8Array(readFileSync(assets)));
let failed = 0, passed = 0, written = 0;

function check(ok, args, what, got, want) {
  if (ok) { passed += 1; return; }
  failed += 1;
  const lines = String(got).split("\n"), others = String(want).split("\n"), at = lines.findIndex((line, i) => line !== others[i]);
  console.log(`FAILED: tarn ${args.join(" ")}: ${what}\n  page:   ${lines[at]}\n  native: ${others[at]}`);
}

rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
for (const args of COMMANDS) {
  const before = new Set(inputs.keys()), page = run(module, new Map(inputs), args);
  const native = spawnSync(join(build, "tarn"), args, { env: { ...process.env, TARN_SCRIPTS: "scripts" }, maxBuffer: 1 << 28 });
  check(page.status === native.status, args, "status", page.status, native.status);
  check(timed(page.out.toString()) === timed(native.stdout.toString()), args, "text", page.out, native.stdout);
  check(page.err === native.stderr.toString(), args, "message", page.err, native.stderr);
  for (const [name, bytes] of page.files) {
    if (before.has(name)) continue;
    written += 1;
    check(Buffer.from(bytes).equals(readFileSync(name)), args, name, Buffer.from(bytes), readFileSync(name));
  }
}
check(written === readdirSync(out).length && written > 10, [], "files written", written, readdirSync(out).length);
console.log(`the page's program beside the native one: ${COMMANDS.length} command lines, ${passed} comparisons the same, ${failed} not`);
process.exit(failed ? 1 : 0);

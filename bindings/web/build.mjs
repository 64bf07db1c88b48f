// SPDX-License-Identifier: MIT
// Puts the page together: one file, nothing to fetch.
//     node bindings/web/build.mjs build/web
import { readFileSync, renameSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

const out = process.argv[2];
const here = dirname(fileURLToPath(import.meta.url));
const page = (name) => readFileSync(join(here, "page", name), "utf8");
const plot = (name) => readFileSync(join(out, "npm/node_modules/uplot", name), "utf8");

// In the order in which each uses those before it.
const SCRIPTS = ["core", "units", "fields", "describe", "stats", "weather", "ledger", "sketch", "charts", "levels", "form", "words", "questions", "water",
  "sizing", "yard", "bedanswers", "bed", "loganswers", "logbook", "leak", "files",
  "report", "warm", "app"];

// A third of the weight; every browser since 2023 can undo it.
function packed(path) {
  return gzipSync(readFileSync(path), { level: 9 }).toString("base64");
}

const { fields, leak, pond, map } = JSON.parse(readFileSync(join(out, "fields.json"), "utf8"));
const sample = {
  pond, map, name: "seattle_daily_2012_2015.csv",
  csv: packed("weather-samples/seattle_daily_2012_2015.csv"),
  log: { name: "courtyard-log.csv", text: readFileSync("weather-samples/courtyard-log.csv", "utf8") },
};

// Inside a script element "</" would end it; an infinity is no JSON.
const literal = (x) => JSON.stringify(x, (_, v) => (v === Infinity ? "inf" : v))
  .replace(/"inf"/g, "Infinity").replace(/<\//g, "<\\/");

const script = [
  '"use strict";',
  "(() => {",
  `const FIELDS = ${literal(fields)};`,
  `const LOG_FIELDS = ${literal(leak)};`,
  `const SAMPLE = ${literal(sample)};`,
  `const WASM = "${packed(join(out, "tarn.wasm"))}";`,
  ...SCRIPTS.map((name) => page(name + ".js")),
  "})();",
].join("\n");

// A newline between: minified files end in a comment without one.
const html = page("index.html")
  .replace("/* PLOT STYLE */", () => plot("dist/uPlot.min.css"))
  .replace("/* STYLE */", () => page("style.css"))
  .replace("/* PLOT */", () => plot("dist/uPlot.iife.min.js").replace(/\/\/# sourceMappingURL.*/, "") + "\n")
  .replace("/* LICENSE */", () => plot("LICENSE").trim().replace(/--/g, "- -"))
  .replace("/* NOTICES */", () => readFileSync(join(here, "notices.txt"), "utf8").trim().replace(/&/g, "&amp;").replace(/</g, "&lt;"))
  .replace("/* SCRIPT */", () => script);

const to = join(out, "tarn.html");
writeFileSync(to + ".part", html);
renameSync(to + ".part", to);
console.log(`   ${to}: ${Math.round(html.length / 1000)} kB`);

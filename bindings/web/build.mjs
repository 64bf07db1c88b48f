// SPDX-License-Identifier: MIT
// Puts the page together: one file, nothing to fetch.
//     node bindings/web/build.mjs build/web
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, renameSync, writeFileSync } from "node:fs";
import { execFileSync } from "node:child_process";
import { basename, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { packed } from "./pack.mjs";

const out = process.argv[2];
const here = dirname(fileURLToPath(import.meta.url));
const own = (...names) => names.map((name) => readFileSync(join(here, name), "utf8")).join("\n");
const plot = (name) => readFileSync(join(out, "npm/node_modules/uplot", name), "utf8");

const lua = (name, ...what) => JSON.parse(execFileSync(join(out, "../tarn"), [join(here, name), ...what]).toString());

// The program's own files: its scripts, and the page's way into them; bare of comments.
const WAY_IN = ["page", "files", "examined", "asks"].map((name) => join(here, name + ".lua"));
const scripts = readdirSync("scripts", { recursive: true }).filter((name) => name.endsWith(".lua")).map((name) => join("scripts", name));
const files = {};
for (const [path, text] of Object.entries(lua("bare.lua", ...scripts, ...WAY_IN))) files[WAY_IN.includes(path) ? join("web", basename(path)) : path] = text;

const SAMPLES = "weather-samples/";
const described = (name, ...what) => lua("samples.lua", SAMPLES + name, ...what);
const samples = { pond: described("courtyard-pond.lua", "pond"), map: described("seattle-map.lua") };
for (const name of ["seattle_daily_2012_2015.csv", "courtyard-log.csv", "courtyard-study.lua", "courtyard-measured.lua"]) samples[name] = readFileSync(SAMPLES + name, "utf8");

const script = [
  '"use strict";',
  "(() => {",
  plot("dist/uPlot.iife.min.js").replace(/^\/\*![^]*?\*\//, "").replace(/\/\/# sourceMappingURL.*/, ""),
  readFileSync(join(out, "npm/node_modules/read-excel-file/bundle/read-excel-file.min.js"), "utf8").replace(/\/\/# sourceMappingURL.*/, ""),
  own("page/units.js", "page/form.js", "page/pictures.js", "page/questions.js"), "const Figure = (() => {", own("report/zoom.js"), "return Figure; })();",
  own(..."answers sheet program workbook files state shape sharing history chapters asking glance opening saving sliders app".split(" ").map((name) => `page/${name}.js`)),
  "})();",
].join("\n").replace(/\r/g, "");
// The one script of the page that is not packed puts the other in its place; the page's
// policy knows both by their digests.
const begin = own("page/unpack.js", "page/begin.js").replace(/\r/g, "");
const worker = own("host.js", "page/unpack.js", "page/worker.js");
if (/<\/script|<!--/i.test(begin)) throw new Error("a script would end its own element");
const digest = (text) => "sha256-" + createHash("sha256").update(text).digest("base64");

const escaped = (text) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;");
const parts = {
  "BEGIN DIGEST": digest(begin),
  DIGEST: digest(script),
  "PLOT STYLE": plot("dist/uPlot.min.css"),
  STYLE: own("page/style.css", "report/zoom.css"),
  LICENSE: plot("LICENSE").trim().replace(/--/g, "- -"),
  NOTICES: escaped(own("notices.txt").trim() + "\n\n" + readFileSync(join(out, "source/csv/COPYING.LESSER"), "latin1").trim()),
  WORKER: packed(Buffer.from(worker)),
  PROGRAM: packed(readFileSync(join(out, "tarn.wasm"))),
  FILES: packed(Buffer.from(JSON.stringify(files))),
  SAMPLES: packed(Buffer.from(JSON.stringify(samples))),
  SCRIPT: packed(Buffer.from(script)),
  BEGIN: begin,
};
const html = own("page/index.html").replace(/\/\* ([A-Z ]+) \*\//g, (all, name) => (name in parts ? parts[name] : all));

const to = join(out, "tarn.html");
writeFileSync(to + ".part", html);
renameSync(to + ".part", to);
console.log(`   ${to}: ${Math.round(html.length / 1000)} kB`);

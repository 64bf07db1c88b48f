// SPDX-License-Identifier: MIT
// What a report takes in to let figures be zoomed, as one file: uPlot with its
// licence, our script and style.  The first line is the digest by which the
// report's security policy knows the rest.
//     node bindings/web/report/build.mjs build/web/npm build/report-assets.js
import { createHash } from "node:crypto";
import { readFileSync, renameSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const [, , npm, to] = process.argv;
const here = dirname(fileURLToPath(import.meta.url));
const own = (name) => readFileSync(join(here, name), "utf8");
const plot = (name) => readFileSync(join(npm, "node_modules/uplot", name), "utf8").replace(/\r/g, "");
const { version } = JSON.parse(plot("package.json"));

const code = `
/*! uPlot ${version}
${plot("LICENSE").trim()} */
(() => {
"use strict";
${plot("dist/uPlot.iife.min.js").replace(/^\/\*![^]*?\*\//, "").replace(/\/\/# sourceMappingURL.*/, "").trim()}
const style = document.createElement("style");
style.textContent = ${JSON.stringify(plot("dist/uPlot.min.css") + own("zoom.css"))};
document.head.append(style);
${own("zoom.js")}})();
`;
// it stands inside a script element
if (/<\/script|<!--/i.test(code)) throw new Error("the script would end its own element");

const digest = createHash("sha256").update(code).digest("base64");
writeFileSync(to + ".part", `// sha256-${digest}\n${code}`);
renameSync(to + ".part", to);
console.log(`   ${to}: ${Math.round(code.length / 1000)} kB`);

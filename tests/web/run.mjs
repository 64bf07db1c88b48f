// SPDX-License-Identifier: MIT
// The page in a real browser, headless, beside the native program.
//     make web-test        or: node tests/web/run.mjs build
// Environment: SHOTS=folder keeps pictures; ONLY=speed,answers runs some parts.
import { createHash } from "node:crypto";
import { readFileSync, statSync } from "node:fs";
import { cpus, loadavg } from "node:os";
import { answers, study } from "./answers.mjs";
import { fingers, shapes, tables, undo } from "./back.mjs";
import { climate } from "./climate.mjs";
import { everyone, paper } from "./everyone.mjs";
import { entries, kept } from "./entries.mjs";
import { fresh, samples } from "./fresh.mjs";
import { dropped, several } from "./files.mjs";
import { browser, check, file, result, say } from "./harness.mjs";
import { cut, refused, saving } from "./refused.mjs";
import { schema } from "./schema.mjs";
import { unpacked } from "../../bindings/web/pack.mjs";
import { facts, menus, pictures, questions, seven } from "./sheet.mjs";
import { workbooks } from "./workbook.mjs";
import { slider, speed } from "./speed.mjs";

const weight = statSync(file).size, text = readFileSync(file, "utf8");
say(`page weight: ${Math.round(weight / 1000)} kB, all in`);
check(weight < 850000, `page weighs ${weight} bytes`);
const inside = async (id) => new TextDecoder().decode(await unpacked(text.match(new RegExp(`id="${id}">([^<]*)<`))[1]));
const script = await inside("script"), begin = text.match(/<script>([^]*?)<\/script>/)[1];
const addresses = (text + script + await inside("worker")).replace(/<pre>[^]*?<\/pre>|<!--[^]*?-->|\/\*[^]*?\*\//g, "").match(/https?:\/\/(?!www\.w3\.org|schemas\.openxmlformats\.org|purl\.oclc\.org)[a-z]\S*/gi) || [];
check(addresses.length === 0, `addresses in the page: ${addresses.slice(0, 3).join(" ")}`);
const digests = [begin, script].map((source) => `'sha256-${createHash("sha256").update(source).digest("base64")}'`).join(" ");
check(text.includes(`script-src ${digests} 'wasm-unsafe-eval';`) && !/connect-src|unsafe-eval'.*unsafe-eval'/.test(text), "the page's policy lets in its own scripts and nothing else");
const wanted = process.env.ONLY ? process.env.ONLY.split(",") : null;
for (const part of [schema, cut, fresh, samples, undo, tables, shapes, fingers, answers, facts, menus, questions, seven, workbooks, pictures, climate, study, entries, kept, dropped, several, speed, slider, refused, saving, everyone, paper]) {
  if (wanted && !wanted.includes(part.name)) continue;
  try {
    await part();
  } catch (error) {
    check(false, `${part.name}: ${error.stack}`);
  }
}
check(result.requests.length === 0, `the page asked the network: ${result.requests.join(" ")}`);
await browser.close();

say(`on ${cpus().length} cores with a load of ${loadavg()[0].toFixed(1)}`);
for (const line of result.measured) console.log(line);
console.log(`${result.passed} checks passed, ${result.failures.length} failed`);
process.exit(result.failures.length ? 1 : 0);

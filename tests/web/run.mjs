// SPDX-License-Identifier: MIT
// The page in a real browser, headless, against the native build.
//     make web-test        or: node tests/web/run.mjs build
// Environment: SHOTS=folder keeps pictures; ONLY=speed,bed runs some parts.
import { readFileSync, statSync } from "node:fs";
import { cpus, loadavg } from "node:os";
import { bed, yard } from "./bed.mjs";
import { everyone, paper } from "./everyone.mjs";
import { browser, check, file, result, say } from "./harness.mjs";
import { bucket, log } from "./leak.mjs";
import { mapped, numbers } from "./numbers.mjs";
import { refused, saving } from "./refused.mjs";
import { report } from "./report.mjs";
import { schema } from "./schema.mjs";
import { speed } from "./speed.mjs";

const weight = statSync(file).size;
say(`page weight: ${Math.round(weight / 1000)} kB, all in`);
check(weight < 600000, `page weighs ${weight} bytes`);
check(!/https?:\/\/(?!www\.w3\.org)[a-z]/i.test(readFileSync(file, "utf8").replace(/<!--[\s\S]*?-->|\/\*[\s\S]*?\*\//g, "")), "no address in the page");
const wanted = process.env.ONLY ? process.env.ONLY.split(",") : null;
for (const part of [schema, numbers, mapped, speed, bed, yard, bucket, log, report, refused, saving, everyone, paper]) {
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

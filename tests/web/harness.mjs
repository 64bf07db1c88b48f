// SPDX-License-Identifier: MIT
// The page in a real browser, headless: what the parts of the test share.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

export const build = resolve(process.argv[2] || "build"), tarn = join(build, "tarn"), file = join(build, "web/tarn.html");
export const require = createRequire(join(build, "web/npm/"));
const { chromium } = require("playwright-core");
export const folder = mkdtempSync(join(tmpdir(), "tarn-web-"));
const url = pathToFileURL(file).href;
const S = "weather-samples/";
export const POND = S + "courtyard-pond.lua", SEATTLE = S + "seattle_daily_2012_2015.csv", MAP = S + "seattle-map.lua", LOG = S + "courtyard-log.csv",
  STUDY = S + "courtyard-study.lua", MEASURED = S + "courtyard-measured.lua";

export const result = { passed: 0, failures: [], measured: [], requests: [] };
export const say = (line) => result.measured.push(line);

export function check(ok, what) {
  if (ok) { result.passed += 1; return; }
  result.failures.push(what);
  console.log("FAILED: " + what);
}

export const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu", "--disable-quic",
  "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"] });

// A page as it is opened for the first time.
export async function fresh(options) {
  const context = await browser.newContext(Object.assign({ viewport: { width: 1360, height: 900 }, acceptDownloads: true }, options));
  const page = await context.newPage();
  page.on("request", (r) => { if (!/^(file|blob|data):/.test(r.url())) result.requests.push(r.url()); });
  page.on("pageerror", (e) => check(false, "script error: " + e.message));
  page.on("console", (m) => { if (m.type() === "error") check(false, "console: " + m.text()); });
  await page.goto(url);
  await page.waitForFunction(() => window.tarn && window.tarn.ready, null, { timeout: 60000 });
  return page;
}

// A page with the sample pond, and every field in sight.
export async function open(options) {
  const page = await fresh(options);
  await page.click('[data-sample="pond"]');
  await page.evaluate(() => { document.getElementById("more").open = true; });
  await page.evaluate(() => window.tarn.idle());
  return page;
}

// A picture of the whole page, where somebody looks at them.
export async function shot(page, name, options) {
  if (!process.env.SHOTS) return;
  await page.waitForTimeout(150);
  await page.screenshot({ path: join(process.env.SHOTS, name + ".png"), fullPage: true, ...options });
}

// Until the answers of a chapter are all there, drawings and all.
export const done = (page, chapter) => page.waitForFunction((name) => document.body.dataset.done === name, chapter, { timeout: 120000 });

// Does something that asks the chapter anew, and waits for the answers.
export async function anew(page, chapter, action) {
  await page.evaluate(() => { delete document.body.dataset.done; });
  await action();
  await done(page, chapter);
}

const SAMPLES = { water: "weather", leak: "log", commission: "measured", whatif: "study" };

// Turns to a chapter; 'sample': takes its sample too.
export async function turn(page, chapter, sample) {
  await anew(page, chapter, async () => {
    await page.click("#tab-" + chapter);
    if (sample && SAMPLES[chapter]) await page.click(`#chapter-${chapter} [data-sample="${SAMPLES[chapter]}"]`);
    else await page.evaluate((name) => window.tarn.ask(name), chapter);
  });
}

// A part of the sheet "check your file".
export const text = (page, part) => page.textContent(`#sheet [data-part="${part}"]`);
const checked = (page, path) => page.waitForFunction((name) => document.body.dataset.checked === name, basename(path), { timeout: 60000 });

// Opens a weather file, and waits until the sheet is of it.
export async function give(page, path) {
  await page.evaluate(() => { delete document.body.dataset.checked; });
  await page.setInputFiles('[data-opens="weather"]', path);
  await checked(page, path);
}

// Does something on the sheet, and waits until the file has been read again.
export async function change(page, act) {
  await page.evaluate(() => { delete document.body.dataset.checked; });
  await act();
  await page.waitForFunction(() => document.body.dataset.checked, null, { timeout: 60000 });
}

export async function download(page, button) {
  const [d] = await Promise.all([page.waitForEvent("download"), page.click(button)]);
  const to = join(folder, d.suggestedFilename());
  await d.saveAs(to);
  return to;
}

// The native program: { status, out, err }.
export function native(...args) {
  const r = spawnSync(tarn, args, { maxBuffer: 1 << 28, env: { ...process.env, TARN_SCRIPTS: "scripts" } });
  return { status: r.status, out: r.stdout.toString(), err: r.stderr.toString().trim().replace(/^tarn: /, "") };
}

// The native report of a command line: { html, status }.
export function reported(...args) {
  const to = join(folder, "native.html"), r = native(...args, "--report", to);
  check([0, 3, 4].includes(r.status), `tarn ${args.join(" ")}: ${r.status} ${r.err}`);
  return { html: readFileSync(to, "utf8"), status: r.status };
}

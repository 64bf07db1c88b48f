// SPDX-License-Identifier: MIT
// The page in a real browser, headless: what the parts of the test share.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

export const build = resolve(process.argv[2] || "build"), tarn = join(build, "tarn"), file = join(build, "web/tarn.html");
export const require = createRequire(join(build, "web/npm/"));
const { chromium } = require("playwright-core");
export const folder = mkdtempSync(join(tmpdir(), "tarn-web-"));
const url = pathToFileURL(file).href;
export const POND = "weather-samples/courtyard-pond.lua", SEATTLE = "weather-samples/seattle_daily_2012_2015.csv", MAP = "weather-samples/seattle-map.lua",
  LOG = "weather-samples/courtyard-log.csv";

export const result = { passed: 0, failures: [], measured: [], requests: [] };
export const say = (line) => result.measured.push(line);

export function check(ok, what) {
  if (ok) { result.passed += 1; return; }
  result.failures.push(what);
  console.log("FAILED: " + what);
}

export function native(...args) {
  return JSON.parse(execFileSync(tarn, ["tests/web/dump.lua", ...args], { maxBuffer: 1 << 28 }).toString());
}

// Relative to the larger, but for what is nothing beside a drop of water.
export const near = (a, b) => a === b || Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b)) || Math.abs(a - b) < 1e-13;

export function same(got, want, what) {
  check(got === want || near(got, want), `${what}: page ${got}, native ${want}`);
}

export const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu", "--disable-quic",
  "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"] });

export async function open(options) {
  const context = await browser.newContext(Object.assign({ viewport: { width: 1360, height: 900 }, acceptDownloads: true }, options));
  const page = await context.newPage();
  page.on("request", (r) => { if (!/^(file|blob|data):/.test(r.url())) result.requests.push(r.url()); });
  page.on("pageerror", (e) => check(false, "script error: " + e.message));
  page.on("console", (m) => { if (m.type() === "error") check(false, "console: " + m.text()); });
  await page.goto(url);
  await page.waitForFunction(() => window.tarn && window.tarn.core);
  return page;
}

export const done = (page) => page.waitForFunction(() => document.body.dataset.done, null, { timeout: 60000 });

export async function sample(page) {
  await page.click("#sample");
  await page.waitForTimeout(50);
  await done(page);
}

export async function openPond(page, json) {
  await page.evaluate(() => { window.before = window.tarn.pond; });
  await page.setInputFiles("#json-file", json);
  await page.waitForFunction(() => window.tarn.pond !== window.before);
}

export async function download(page, button) {
  const [d] = await Promise.all([page.waitForEvent("download"), page.click(button)]);
  const to = join(folder, d.suggestedFilename());
  await d.saveAs(to);
  return to;
}

// The page's job in the native dump's shape.
export const job = (page) => page.evaluate(() => {
  const { months, years, totals, facts, band, endurance, count } = window.tarn.job, days = window.tarn.allDays(), weeks = window.tarn.periods("week"), columns = {};
  for (const name of Object.keys(days)) columns[name] = Array.from(days[name]);
  return { days: columns, count, weeks, months, years, totals, facts, band: band.map((b) => b.totals.topup), endurance: endurance && Array.from(endurance) };
});

const DAY = ["rain_mm", "open_water_mm", "grass_mm", "rain", "runoff", "tank", "topup", "evaporation", "bed", "stream", "splash",
  "seepage", "withdrawal", "overflow", "shortfall", "unmet", "level", "area", "volume", "held", "in_tank"];
const PERIOD = ["rain", "runoff", "topup", "evaporation", "bed", "stream", "splash", "seepage", "overflow", "drop_mm", "start_level",
  "end_level", "lowest_level", "days", "topped_up", "spilled"];

export function compare(got, want, what) {
  let worst = 0, cells = 0;
  check(got.count === want.days.length, `${what}: ${got.count} days, native ${want.days.length}`);
  for (const name of DAY) {
    want.days.forEach((day, i) => {
      const a = got.days[name][i], b = day[name];
      cells += 1;
      if (!near(a, b)) check(false, `${what}: ${name} of ${day.date}: page ${a}, native ${b}`);
      if (b !== 0) worst = Math.max(worst, Math.abs(a - b) / Math.max(Math.abs(b), 1e-4));
    });
  }
  for (const kind of ["weeks", "months", "years"]) {
    check(got[kind].length === want[kind].length, `${what}: ${kind}`);
    want[kind].forEach((p, i) => PERIOD.forEach((name) => { if (!near(got[kind][i][name], p[name])) check(false, `${what}: ${kind} ${p.first} ${name}`); }));
  }
  PERIOD.forEach((name) => same(got.totals[name], want.totals[name], `${what}: totals ${name}`));
  check(got.band.length === want.band.length, `${what}: ${got.band.length} other methods, native ${want.band.length}`);
  got.band.sort().forEach((t, i) => same(t, want.band.slice().sort()[i], `${what}: band`));
  if (want.endurance) {
    const other = want.endurance.filter((d, i) => (d === false ? -1 : d) !== got.endurance[i]).length;
    check(other === 0, `${what}: endurance differs on ${other} days`);
  }
  result.passed += 1;
  return `${cells} figures, worst ${worst.toExponential(1)} relative`;
}

// The runner's message, without the program's name, the folder and what only
// a command line can be told.
export function message(args) {
  const r = spawnSync(tarn, args);
  return r.status === 0 ? null : r.stderr.toString().trim().replace(/^tarn: /, "").replace(/tests\/bad\//g, "");
}

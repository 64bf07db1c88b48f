// SPDX-License-Identifier: MIT
// Every report in a real browser, headless.
//     make web-test        or: node tests/web/reports.mjs build
// Environment: SHOTS=folder keeps pictures and PDFs; ONLY=bed,leak takes some.
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { spawnSync } from "node:child_process";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const build = resolve(process.argv[2] || "build"), require = createRequire(join(build, "web/npm/"));
const { chromium } = require("playwright-core");
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const folder = mkdtempSync(join(tmpdir(), "tarn-reports-")), shots = process.env.SHOTS;
const S = "weather-samples/", SEATTLE = [S + "seattle_daily_2012_2015.csv"], MAP = ["--map", S + "seattle-map.lua"];

// name, what the program is given, how many figures can be zoomed
const REPORTS = [
  ["topup", ["topup", S + "courtyard-pond.lua", ...SEATTLE, ...MAP], 1],
  ["topup-year", ["topup", S + "courtyard-pond.lua", ...SEATTLE, ...MAP, "--first", "2014-01-01", "--last", "2014-12-31", "--units", "metric"], 1],
  ["topup-day", ["topup", S + "courtyard-pond.lua", ...SEATTLE, ...MAP, "--first", "2014-06-10", "--last", "2014-06-10"], 0],
  ["topup-decades", ["topup", S + "courtyard-pond.lua", S + "de_bilt_daily_1980_2019.csv", "--latitude", "52.1", "--elevation", "2", "--wind-height", "10"], 1],
  ["bed", ["bed", S + "courtyard-pond.lua"], 0],
  ["bed-metric", ["bed", "tests/good/unsized-bed.lua", "--units", "metric"], 0],
  ["bed-crowded", ["bed", "tests/good/crowded-bed.lua"], 0],
  ["sheet", ["sheet", S + "courtyard-pond.lua", ...SEATTLE, ...MAP, "--materials"], 0],
  ["leak", ["leak", S + "courtyard-pond.lua", ...SEATTLE, S + "courtyard-log.csv", ...MAP], 1],
  ["leak-bucket", ["leak", "--area", "150", "--bed", "25", "--off-hours", "48", "--off-drop", "0.6", "--off-bucket", "0.5", "--on-hours", "48", "--on-drop", "1.4", "--on-bucket", "0.5"], 0],
  ["whatif", ["whatif", S + "courtyard-pond.lua", ...SEATTLE, S + "courtyard-study.lua", ...MAP], 0],
  ["commission", ["commission", S + "courtyard-pond.lua", S + "courtyard-measured.lua"], 0],
];

let passed = 0, now = "";
const failures = [], requests = [], measured = [];
function check(ok, what) {
  if (ok) { passed += 1; return; }
  failures.push(what);
  console.log(`FAILED: ${now}: ${what}`);
}

const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu", "--disable-quic",
  "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"] });

function write(name, args, tarn = join(build, "tarn")) {
  const to = join(folder, name + ".html");
  const r = spawnSync(tarn, [...args, "--report", to], { env: { ...process.env, TARN_SCRIPTS: "scripts" }, maxBuffer: 1 << 26 });
  check([0, 3, 4].includes(r.status), `exit status ${r.status}: ${r.stderr}`);
  return { to, text: r.stdout.toString() };
}

async function open(file, options) {
  const context = await browser.newContext({ viewport: { width: 1100, height: 800 }, ...options });
  const page = await context.newPage();
  page.on("request", (r) => { if (!r.url().startsWith("file:")) requests.push(r.url()); });
  page.on("pageerror", (e) => check(false, "script error: " + e.message));
  page.on("console", (m) => { if (m.type() === "error") check(false, "console: " + m.text()); });
  await page.goto(pathToFileURL(file).href);
  return page;
}

async function audit(page, what) {
  // through the debugger: the report's policy lets no other script in
  await page.evaluate(axe);
  const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  for (const v of found.violations) {
    const grave = ["serious", "critical"].includes(v.impact);
    if (grave) check(false, `accessibility, ${what}: ${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map((n) => n.html.slice(0, 140)).join(" | ")}`);
    else lesser.add(v.id);
  }
  passed += 1;
}
const lesser = new Set();

const VIEWS = [["light", {}], ["dark", { colorScheme: "dark" }], ["phone", { viewport: { width: 390, height: 800 }, isMobile: true, hasTouch: true, deviceScaleFactor: 2 }]];

async function views(name, file) {
  for (const [what, options] of VIEWS) {
    const page = await open(file, options);
    await page.waitForTimeout(100);
    await audit(page, what);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    check(wide <= 0, `${what}: ${wide} px wider than the screen`);
    const cut = await page.evaluate(() => Array.from(document.querySelectorAll("figure .scroll:not(.still)"))
      .filter((s) => s.scrollWidth > s.clientWidth + 1 && !/swipe/.test(getComputedStyle(s.nextElementSibling, "::before").content)).length);
    check(cut === 0, `${what}: ${cut} drawings go on beyond the edge and do not say so`);
    if (shots) await page.screenshot({ path: join(shots, `${name}-${what}.png`), fullPage: true });
    await page.context().close();
  }
}

// ---- zoom -----------------------------------------------------------------------

const range = (page) => page.textContent(".live .read");

async function changes(page, what, action) {
  const before = await range(page);
  await action();
  await page.waitForTimeout(60);
  const after = await range(page);
  check(before !== after, `${what}: still "${after}"`);
  return after;
}

async function zoom(name, file, count) {
  const page = await open(file), quiet = () => page.mouse.move(2, 2);
  await page.waitForTimeout(100);
  check(await page.locator(".live").count() === count, `${await page.locator(".live").count()} figures can be zoomed, want ${count}`);
  check(await page.locator("figure.plot .still").isHidden(), "the drawing gives way to the figure");
  const all = await range(page), over = page.locator(".live .u-over").first();
  await over.scrollIntoViewIfNeeded();
  const box = await over.boundingBox();
  const y = box.y + box.height / 2;
  await changes(page, "drag", async () => {
    await page.mouse.move(box.x + box.width * 0.3, y);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.6, y, { steps: 4 });
    await page.mouse.up();
    await quiet();
  });
  const spans = await page.evaluate(() => Array.from(document.querySelectorAll(".live canvas"), (c) => c.getAttribute("aria-label")));
  check(spans.every((s) => /\d{4}-\d\d-\d\d to \d{4}/.test(s)), "each canvas says what it shows: " + spans.join(" | "));
  check(await changes(page, "button", () => page.click('.live [data-zoom="all"]')) === all, "All shows all again");
  await page.focus(".live .stage");
  for (const key of ["+", "ArrowRight", "-"]) {
    if (key === "ArrowRight") await page.keyboard.press("+");
    await changes(page, "key " + key, () => page.keyboard.press(key));
  }
  await page.keyboard.press("0");
  await page.waitForTimeout(60);
  check(await range(page) === all, "key 0 shows all again");
  await changes(page, "wheel", async () => {
    await page.mouse.move(box.x + box.width / 2, y);
    await page.mouse.wheel(0, -200);
    await page.waitForTimeout(60);
    await quiet();
  });
  await page.mouse.move(box.x + box.width / 2, y);
  await page.waitForTimeout(60);
  check(/\d{4}-\d\d-\d\d: /.test(await range(page)), `the pointer reads a day: "${await range(page)}"`);
  const canvases = await page.locator(".live canvas").count();
  await page.emulateMedia({ colorScheme: "dark" });
  await page.waitForTimeout(60);
  check(await page.locator(".live canvas").count() === canvases, "the dark draws the figure anew, once");
  await page.emulateMedia({ colorScheme: "light" });
  if (shots) await page.locator("figure.plot").first().screenshot({ path: join(shots, name + "-zoomed.png") });
  await page.context().close();
}

// ---- paper ----------------------------------------------------------------------

async function paper(name, file, scheme) {
  const page = await open(file, { colorScheme: scheme });
  await page.waitForTimeout(100);
  const pdf = await page.pdf({ format: "Letter", printBackground: true });
  const pages = (pdf.toString("latin1").match(/\/Type\s*\/Page\b/g) || []).length;
  check(pdf.length > 15000 && pages >= 1 && pages <= 14, `print: ${pages} pages, ${pdf.length} bytes`);
  await page.emulateMedia({ media: "print", colorScheme: scheme });
  check(await page.locator(".still").count() === 0 || await page.locator(".still").first().isVisible(), "paper shows the drawing");
  check(await page.locator(".live").count() === 0 || await page.locator(".live").first().isHidden(), "paper shows no buttons");
  const ground = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  check(ground === "rgb(255, 255, 255)", `paper is white, not ${ground} (${scheme})`);
  if (shots) writeFileSync(join(shots, `${name}-${scheme}.pdf`), pdf);
  await page.context().close();
  return pages;
}

// ---- all --------------------------------------------------------------------------

if (shots) mkdirSync(shots, { recursive: true });
const wanted = process.env.ONLY ? process.env.ONLY.split(",") : null;
for (const [name, args, zoomed] of REPORTS) {
  if (wanted && !wanted.includes(name)) continue;
  now = name;
  try {
    const { to, text } = write(name, args), source = readFileSync(to, "utf8");
    await views(name, to);
    if (zoomed) await zoom(name, to, zoomed);
    const pages = await paper(name, to, "light");
    await paper(name, to, "dark");
    check(text.length > 500, "it prints its page as well");
    measured.push(`${name}: ${Math.round(source.length / 1000)} kB, ${pages} pages of paper`);
  } catch (error) {
    check(false, error.stack);
  }
}

// Without the assets: the drawing, no script, nothing about zoom.
if (!wanted) {
  now = "without assets";
  const bare = join(folder, "tarn");
  copyFileSync(join(build, "tarn"), bare);
  const { to } = write("bare", REPORTS[0][1], bare), source = readFileSync(to, "utf8");
  check(!source.includes("<script"), "no script");
  const page = await open(to, {});
  check(await page.locator("figure svg").count() >= 3 && await page.locator("figure svg").first().isVisible(), "the drawings stand");
  check(!/zoom/i.test(await page.textContent("main")), "nothing is said of zoom");
  await page.context().close();
  measured.push(`topup without assets: ${Math.round(source.length / 1000)} kB`);
}

check(requests.length === 0, `a report asked the network: ${requests.join(" ")}`);
await browser.close();
for (const line of measured) console.log(line);
console.log(`reports: nothing serious by the accessibility checker (lesser: ${Array.from(lesser).join(", ") || "none"})`);
console.log(`reports: ${passed} checks passed, ${failures.length} failed`);
process.exit(failures.length ? 1 : 0);

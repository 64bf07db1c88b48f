// SPDX-License-Identifier: MIT
// The way back, a link that carries the pond, tables that leave the page, descriptions of a
// wrong shape, and targets that a finger can hit.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { anew, check, download, folder, fresh, open, say, turn } from "./harness.mjs";

const pond = (page) => page.evaluate(() => JSON.stringify(window.tarn.pond)), idle = (page) => page.evaluate(() => window.tarn.idle());

export async function undo() {
  const page = await fresh();
  await idle(page);
  check(await page.isDisabled("#undo") && await page.isDisabled("#redo"), "nothing to undo yet");
  await page.fill("#q-length", "7 m");
  await idle(page);
  await page.fill("#q-width", "4 m");
  await idle(page);
  const before = await pond(page);
  await page.click("#afresh");
  await idle(page);
  check(await pond(page) === "{}", "started afresh");
  await page.click("#undo");
  await idle(page);
  check(await pond(page) === before && await page.inputValue("#q-width") !== "", `undo brings the pond back: ${await pond(page)}`);
  await page.focus("#print");
  await page.keyboard.press("Control+z");
  await idle(page);
  check(JSON.parse(await pond(page)).basin.width === undefined, "Ctrl+Z, another step back");
  await page.keyboard.press("Control+Shift+z");
  await idle(page);
  check(await pond(page) === before, "and forth");
  await page.click('[data-sample="pond"]');
  await idle(page);
  await page.click("#undo");
  await idle(page);
  check(await pond(page) === before && await page.isHidden("#ribbon"), "a sample looked at is undone, ribbon and all");
  // the link carries it, with what is assumed, to a page that knows nothing
  await page.evaluate(() => { navigator.clipboard.writeText = (text) => { window.copied = text; return Promise.resolve(); }; });
  await page.click("#copy-link");
  const link = await page.evaluate(() => window.copied), other = await fresh();
  await other.goto(link);
  await other.reload();
  await other.waitForFunction(() => window.tarn && window.tarn.ready);
  await idle(other);
  check(await pond(other) === before && await other.isVisible('[data-assumed="depth"]') && !(await other.evaluate(() => location.hash)), "a link carries the pond in its fragment");
  await other.context().close();
  await page.context().close();
}

export async function tables() {
  const page = await open();
  await turn(page, "water", true);
  const csv = readFileSync(await download(page, '#water-answers .answer .tools button:has-text("CSV")'), "utf8"), lines = csv.trim().split("\n");
  const cell = (await page.textContent("#water-answers .answer tbody tr:first-child td")).trim();
  check(lines.length > 3 && lines.every((line) => line.length) && csv.includes(cell), `a table as CSV: ${lines[0]}`);
  check(!/(^|\s)--[a-z]/.test(await page.innerText("#water-answers")), "no option of a command stands in the answers");
  await page.context().close();
}

// Whatever a file, the memory or a link holds, the form stands.
const WRONG = [null, 5, [], "pond", { basin: null }, { basin: 5 }, { basin: [1, 2] }, { basin: { length: null, width: {}, shelves: 3 } }, { basin: { length: [], shelves: [null] } },
  { name: {}, pipes: {}, falls: [5], site: { sun: [] } }, { basin: { length: 5, width: 4, depth: 1 }, overflow_level: null, bed: null, costs: "much" }];

export async function shapes() {
  const page = await open();
  for (const wrong of WRONG) {
    const path = join(folder, "wrong.json"), text = JSON.stringify(wrong);
    writeFileSync(path, text);
    await page.setInputFiles('[data-opens="pond"]', path);
    await idle(page);
    await page.evaluate((kept) => localStorage.setItem("tarn.pond", kept), JSON.stringify({ pond: wrong, system: 7, assumed: 3, fresh: "x" }));
    await page.reload();
    await page.waitForFunction(() => window.tarn && window.tarn.ready);
    await page.evaluate(() => { document.getElementById("more").open = true; });
    await page.fill("#q-length", "5 m");
    await page.fill("#f-name", "still there");
    await idle(page);
    const now = JSON.parse(await pond(page));
    check(now.basin.length === 5 && now.name === "still there", `${text}: the form stands: ${JSON.stringify(now)}`);
  }
  say(`descriptions of a wrong shape: ${WRONG.length}, as a file and in the browser's memory`);
  await page.context().close();
}

export async function fingers() {
  const page = await fresh({ viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true });
  await page.click('[data-sample="pond"]');
  await turn(page, "water", true);
  for (const tab of ["water", "bed", "leak"]) {
    await turn(page, tab, true);
    const small = await page.evaluate(() => Array.from(document.querySelectorAll("button, select, summary, input, .card"), (e) => {
      const box = (e.matches(".switch input, .card input") ? e.parentNode : e).getBoundingClientRect();
      return box.width && getComputedStyle(e).visibility !== "hidden" && !e.matches('input[type="checkbox"]') && box.height < 43.5 ? `${e.tagName} ${e.id || e.textContent.slice(0, 20)} ${box.height}` : "";
    }).filter(Boolean));
    check(small.length === 0, `${tab}: under 44 px: ${small.slice(0, 6).join("; ")}`);
  }
  await page.context().close();
}

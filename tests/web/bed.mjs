// SPDX-License-Identifier: MIT
// The designer's chapter: the bed as described, sliders, the yard.
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { POND, check, download, folder, native, open, openPond, same, sample, say, tarn } from "./harness.mjs";

const slide = (page, id, step) => page.evaluate(async ([name, value]) => {
  const input = document.getElementById(name), begun = performance.now();
  input.value = value;
  input.dispatchEvent(new Event("input", { bubbles: true }));
  await new Promise((r) => requestAnimationFrame(() => requestAnimationFrame(r)));
  return { frame: performance.now() - begun, work: window.tarn.timing.bed };
}, [id, step]);

const FIGURES = ["area", "depth", "loading", "length", "width", "mass", "water", "residence", "clean", "clogged", "rise", "pond", "oxygen_out", "surface_share", "turnover"];

function compareBed(got, want, what) {
  for (const name of FIGURES) if (want[name] !== undefined) same(got[name], want[name], `${what}: ${name}`);
}

export async function bed() {
  const page = await open();
  await page.click("#tab-bed");
  compareBed(await page.evaluate(() => window.tarn.check()), native("bed", POND).sized, "bed as described");
  const stack = await page.evaluate(() => window.tarn.stack()), bought = native("bed", POND).stack;
  for (const name of ["depth", "volume", "mass"]) same(stack[name], bought[name], "all layers, the dry top too: " + name);
  check((await page.textContent("#bed-headline")).includes((stack.mass / 907.18474).toFixed(2) + " tons"), "the headline's stone is all that is bought");
  check(await page.getAttribute("#b-spare_head", "placeholder") !== "", "head to spare shows the drop that stands for it");
  const ticks = await page.evaluate(() => Array.from(document.querySelectorAll("#tradeoff text")).map((t) => t.textContent).filter((t) => /^[\d.,]+$/.test(t)));
  check(ticks.length > 6 && ticks.every((t) => /^(0\.)?[1-9]0*$/.test(t.replace(",", ""))), `round figures beside the map: ${ticks}`);
  await page.selectOption("#b-question", "find");
  const times = [];
  for (let step = 300; step <= 800; step += 25) times.push(await slide(page, "b-flow", step));
  const frames = times.map((t) => t.frame).sort((a, b) => a - b), works = times.map((t) => t.work).sort((a, b) => a - b);
  say(`slider to redraw, 21 moves: work ${works[10].toFixed(0)} ms (most ${works[20].toFixed(0)}), with the frames that the test waits for ${frames[10].toFixed(0)} ms`);
  // a key moves a slider, and a number follows
  const before = await page.textContent("#b-clogging-out");
  await page.focus("#b-clogging");
  for (let i = 0; i < 40; i++) await page.keyboard.press("ArrowRight");
  check(await page.textContent("#b-clogging-out") !== before, "a slider follows the arrow keys");
  await page.fill("#b-surface_share", "0.3");
  await page.waitForTimeout(100);
  await page.click("#b-write");
  await page.waitForTimeout(200);
  await page.click("#tab-water");
  const json = await download(page, "#save-json"), after = native("bed", json).sized;
  await page.click("#tab-bed");
  const got = await page.evaluate(() => window.tarn.check());
  for (const name of ["area", "depth", "loading", "mass", "clogged", "pond", "turnover"]) same(got[name], after[name], "plan written into the pond: " + name);
  await page.context().close();
}

function compareRoom(room, fit, what) {
  for (const name of ["length", "width", "area", "angle", "yard_area"]) same(room[name], fit[name], `${what}: ${name}`);
  fit.corners.forEach((c, i) => { same(room.x[i], c.x, `${what}: corner ${i}`); same(room.y[i], c.y, `${what}: corner ${i}`); });
}

// A description with another yard, to be opened and to be asked of the runner.
function changed(name, change) {
  const path = join(folder, `yard-${name}.json`);
  execFileSync(tarn, ["convert", POND, "--to", path]);
  const d = JSON.parse(readFileSync(path, "utf8"));
  change(d);
  writeFileSync(path, JSON.stringify(d));
  return path;
}

export async function yard() {
  const page = await open();
  const look = async (name, change, words) => {
    const path = changed(name, change), want = native("bed", path);
    await page.click("#tab-water");
    await openPond(page, path);
    await page.click("#tab-bed");
    const got = await page.evaluate(() => ({ check: window.tarn.check(), room: window.tarn.room() }));
    compareRoom(got.room, want.fit, `yard ${name}`);
    compareBed(got.check, want.sized, `bed in the yard ${name}`);
    const verdict = await page.textContent("#yard-verdict");
    check(words.test(verdict), `yard ${name}: ${verdict}`);
    check((want.fits === false) === /does not fit/.test(verdict) || want.fits === undefined, `yard ${name}: runner says fits ${want.fits}, page ${verdict}`);
  };
  await look("too narrow", (d) => { d.yard = { length: 4, width: 3, setback: 0.9 }; }, /does not fit/);
  await look("of five corners", (d) => {
    d.yard = { corners: [{ x: 0, y: 0 }, { x: 6, y: 0, footing: 0.5 }, { x: 6, y: 3 }, { x: 3, y: 5, setback: 1 }, { x: 0, y: 4 }], setback: 0.3, footings: [0.4] };
  }, /fits\.$|does not fit/);
  await look("to be sized", (d) => {
    delete d.bed.length;
    delete d.bed.width;
    Object.assign(d.bed, { loading: 60, surface_share: 0.4 });
  }, /, fits\.$/);
  await page.click("#tab-water");
  await sample(page);
  check(/Take note.*The bed has no size yet/.test(await page.textContent("#headline")), "a bed that is not counted is told first");
  await look("as described", () => {}, /, fits\.$/);

  // typed into the form
  await page.fill("#y-width", "4'");
  await page.waitForFunction(() => /does not fit|no room left/.test(document.getElementById("yard-verdict").textContent + document.getElementById("bed-error").textContent));
  await page.fill("#y-width", "8'");
  await page.waitForFunction(() => /, fits/.test(document.getElementById("yard-verdict").textContent));
  await page.fill("#y-footing-2", "30 in");
  await page.waitForTimeout(150);
  await page.click("#tab-water");
  const json = await download(page, "#save-json"), saved = JSON.parse(readFileSync(json, "utf8"));
  check(Math.abs(saved.yard.footings[2] - 0.762) < 1e-12 && saved.yard.footings[1] === false, `footings saved: ${JSON.stringify(saved.yard.footings)}`);
  compareRoom(await page.evaluate(() => window.tarn.room()), native("bed", json).fit, "yard as typed");
  await page.context().close();
}

// SPDX-License-Identifier: MIT
// A file of 30 years: drop to picture, and the same numbers.
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { POND, browser, check, compare, done, folder, job, native, open, openPond, say, tarn } from "./harness.mjs";

function thirtyYears() {
  const lines = readFileSync("weather-samples/de_bilt_daily_1980_2019.csv", "utf8").split("\n");
  const to = join(folder, "de_bilt_1980_2009.csv");
  writeFileSync(to, lines.filter((l, i) => i === 0 || /^(19|200)/.test(l)).join("\n") + "\n");
  return to;
}

// Processor time of the page's main thread from the drop until the picture is
// on the screen, ms: what a quiet machine would take.
async function work(page) {
  await browser.startTracing(page, { categories: ["toplevel", "blink.user_timing"] });
  await drop(page);
  const events = JSON.parse((await browser.stopTracing()).toString()).traceEvents, mark = (name) => events.find((e) => e.name === name && e.ts);
  const from = mark("drop-begins"), to = mark("drop-drawn");
  const tasks = events.filter((e) => e.pid === from.pid && e.tid === from.tid && e.tdur !== undefined && e.ts + e.dur >= from.ts && e.ts <= to.ts)
    .sort((a, b) => a.ts - b.ts || b.dur - a.dur);
  let sum = 0, end = 0;
  for (const task of tasks) {
    if (task.ts < end) continue;		// part of the one before
    sum += task.tdur / 1000;
    end = task.ts + task.dur;
  }
  return sum;
}

// Drops a file as a hand would: a drop event with the file in it.
async function drop(page) {
  return page.evaluate(async () => {
    const data = new DataTransfer();
    data.items.add(window.dropped);
    delete document.body.dataset.done;
    await new Promise((r) => setTimeout(r, 50));
    performance.mark("drop-begins");
    const begun = performance.now();
    document.getElementById("drop").dispatchEvent(new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
    return new Promise((seen, lost) => {
      const look = () => (performance.now() - begun > 20000 ? lost(new Error(document.getElementById("weather-error").textContent)) : document.querySelector("#level-chart canvas") && window.tarn.job && window.tarn.job.count > 5000 ? requestAnimationFrame(() => setTimeout(() => { performance.mark("drop-drawn"); seen(performance.now() - begun); }, 0)) : setTimeout(look, 1));
      look();
    });
  });
}

// Makes the file beforehand, so that only the drop is timed.
const hold = (page, path) => page.evaluate(([name, text]) => { window.dropped = new File([text], name, { type: "text/csv" }); },
  [basename(path), readFileSync(path, "utf8")]);

const list = (times) => times.map((x) => x.toFixed(0)).join(", ");

export async function speed() {
  const long = thirtyYears(), pond = join(folder, "de-bilt.json");
  let page;
  execFileSync(tarn, ["convert", POND, "--to", pond]);
  const d = JSON.parse(readFileSync(pond, "utf8"));
  Object.assign(d.evaporation, { latitude: 52.1, elevation: 2, wind_height: 10 });
  writeFileSync(pond, JSON.stringify(d));

  // A page just opened; 'warm': it had a second or two, as it has until a hand
  // has found a file.
  const fresh = async (warm) => {
    if (page) await page.context().close();
    page = await open();
    await openPond(page, pond);
    await hold(page, long);
    if (warm) await page.evaluate(() => window.tarn.warm);
    await page.waitForTimeout(warm ? 300 : 0);
    return page;
  };
  const atOnce = await drop(await fresh(false)), works = [], times = [];
  for (let i = 0; i < 3; i++) works.push(await work(await fresh(true)));
  for (let i = 0; i < 5; i++) times.push(await drop(await fresh(true)));
  await done(page);
  const again = await page.evaluate(() => { document.getElementById("level-chart").id = "old"; window.tarn.job = null; }).then(() => drop(page));
  await done(page);
  const t = await page.evaluate(() => window.tarn.timing);
  say(`30-year file, drop to picture in a fresh page: ${list(times)} ms by the clock, ${list(works)} ms of processor time; ${list([atOnce])} ms within a moment of opening it, ${list([again])} ms again in the same page (reading ${list([t.read])} ms; all with band and endurance ${list([t.all])} ms)`);
  say("30 years against native: " + compare(await job(page), native("ledger", pond, long), "30 years"));
  check(Math.min(...works) < 300, `30-year file takes ${list(works)} ms of processor time to its picture`);
  await page.context().close();
}

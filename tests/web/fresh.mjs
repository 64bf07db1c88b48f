// SPDX-License-Identifier: MIT
// A page that was never opened before: no pond but the reader's own, six questions, an answer
// that moves with them; what is a sample, a climate or assumed says so.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { audit } from "./everyone.mjs";
import { anew, check, folder, fresh as opened, native, say, shot, turn } from "./harness.mjs";

const flat = (text) => text.replace(/\s+/g, " ");
const glance = async (page) => { await page.evaluate(() => window.tarn.idle()); return flat(await page.textContent("#glance")); };

export async function fresh() {
  for (const [what, options] of [["desktop", {}], ["phone", { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true, colorScheme: "dark" }]]) {
    const page = await opened(options), pond = () => page.evaluate(() => window.tarn.pond);
    check(await page.isHidden("#ribbon") && JSON.stringify(await pond()) === "{}", `${what}: the page begins with nobody's pond`);
    check(/Length and width are enough/.test(await glance(page)), `${what}: it says with what an answer begins`);
    check((await page.textContent("#water-wants")).startsWith("Answer the questions"), `${what}: no answer without a pond`);
    await audit(page, `${what}, fresh`);
    await shot(page, `fresh-${what}`);
    await page.fill("#q-length", "24 ft");
    await page.fill("#q-width", "14'");
    const first = await glance(page);
    check(/[\d,]+ US gal when full/.test(first) && /Assumed until you say otherwise: its shape, a rectangle; 3 ft of depth; walls that lean back 1 in 5; water 4 in below/.test(first), `${what}: first answer, and what it assumes: ${first}`);
    check(await page.isVisible('[data-assumed="depth"]') && await page.isVisible('[data-assumed="full"]'), `${what}: what is assumed is marked at its question`);
    await page.fill("#q-depth", "4 ft 3 in");
    const second = await glance(page);
    check(second !== first && !/of depth/.test(second) && await page.isHidden('[data-assumed="depth"]'), `${what}: the answer moves: ${second}`);
    await page.fill("#q-depth", "four");
    check(await page.isVisible("#q-depth-problem") && /'four' is not a length/.test(await page.textContent("#q-depth-problem")), `${what}: what is no length`);
    await page.fill("#q-depth", "3 ft");
    // words by the keyboard
    await page.focus("#q-sun-1");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowRight");
    await page.focus("#q-shape-1");
    await page.keyboard.press("Space");
    const told = await pond();
    check(told.site.sun === "mostly sunny" && told.basin.shape === "rectangle" && await page.isHidden('[data-assumed="shape"]'), `${what}: words by the keyboard: ${JSON.stringify(told)}`);
    await anew(page, "water", () => page.selectOption("#climate", "seattle"));
    check(/^A CLIMATE, NOT YOUR WEATHER: Seattle/.test(await page.textContent("#ribbon-says")), `${what}: a climate is marked over everything`);
    const file = join(folder, `fresh-${what}.json`);
    writeFileSync(file, JSON.stringify(await pond()));
    const said = flat(native("topup", file, "--climate", "seattle").out), [, volume] = /deep; ([\d,]+ US gal) when full/.exec(said) || [], [, year] = /A usual year takes ([\d,]+ US gal)/.exec(said) || [];
    check((await glance(page)).includes(`${volume} when full`) && (await page.textContent("#water-answers")).includes(`A usual year takes ${year}`), `${what}: the command's own figures, ${volume}, ${year}`);
    await audit(page, `${what}, six answers`);
    await shot(page, `six-${what}`);
    // remembered, with what is assumed
    await page.reload();
    await page.waitForFunction(() => window.tarn && window.tarn.ready);
    check(/Assumed until/.test(await glance(page)) && await page.isVisible('[data-assumed="full"]'), `${what}: remembered with what is assumed`);
    await page.context().close();
  }
  say("fresh page: six questions, first answer, climate, at a desk and on a phone");
}

// Samples say so over everything until somebody begins with a pond of their own.
export async function samples() {
  const page = await opened(), says = () => page.textContent("#ribbon-says");
  await page.click('[data-sample="pond"]');
  check(await says() === "SAMPLE POND", `the sample pond: ${await says()}`);
  await turn(page, "water", true);
  check(await says() === "SAMPLE PONDSAMPLE WEATHER", `sample weather: ${await says()}`);
  await page.click("#tab-bed");
  check(await page.isVisible("#ribbon"), "the ribbon is over every chapter");
  await page.click("#ribbon-own");
  check(await page.isHidden("#ribbon") && await page.isVisible("#chapter-water") && await page.evaluate(() => JSON.stringify(window.tarn.pond)) === "{}" && await page.textContent("#water-answers") === "", "then nothing of the samples is left");
  // a bucket test has no gallons without an area
  await page.click("#tab-leak");
  await page.evaluate(() => { document.querySelector("#leak-options").closest("details").open = true; });
  for (const [name, value] of [["off-hours", "24"], ["off-drop", "0.5"], ["off-bucket", "0.25"]]) await page.fill("#f-option-" + name, value);
  await page.evaluate(() => window.tarn.idle());
  check(/needs the pond's area/.test(await page.textContent("#leak-wants")) && await page.textContent("#leak-answers") === "", "a bucket test wants an area first");
  await anew(page, "leak", () => page.fill("#f-option-area", "100"));
  const want = native("leak", "--off-hours", "24", "--off-drop", "0.5", "--off-bucket", "0.25", "--area", "100").out;
  const gallons = /[\d.,]+ (?:US )?gal/.exec(want);
  check(gallons && flat(await page.textContent("#leak-answers")).includes(gallons[0]), `with an area it speaks of gallons, as the command: ${gallons}`);
  await page.context().close();
}

// SPDX-License-Identifier: MIT
// Ties the page together: what it begins with, and its buttons.

function start(form) {
  app.form = form;
  units.factors = form.units;
  let kept = null;
  try { kept = JSON.parse(localStorage.getItem(KEPT)); } catch (error) { /* none */ }
  if (kept && kept.system) units.system = kept.system;
  document.querySelector(`#system input[value="${units.system}"]`).checked = true;
  app.sheet = new Sheet($("sheet"), form.columns, form.weather, app.weatherState, () => { app.unread = true; changed(); });
  app.pondForm = new PondForm($("pond-form"), form.sections, () => changed());
  chapterForms();
  $("climate").append(...form.climates.map((c) => element("option", { value: c.name }, `${c.place}: ${c.kind}`)));
  $("version").textContent = `Tarn ${form.version}`;
  setPond(kept && kept.pond ? renamed(kept.pond) : JSON.parse(JSON.stringify(app.samples.pond)));
  app.ready = true;
  warm();
}

// While nobody has opened a file yet, the sample is read out of sight, so that the
// browser has compiled what the first file needs.
function warm() {
  program.put("warm.csv", new TextEncoder().encode(app.samples["seattle_daily_2012_2015.csv"]));
  program.put("warm.json", JSON.stringify(app.samples.map));
  program.put("pond.json", JSON.stringify(app.pond));
  program.ask("warm", ["topup", "pond.json", "warm.csv", "--map", "warm.json"], 0, (item) => { app.warm = item.kind === "end"; });
}

new Files(OPENS, refuse).watch();
for (const button of document.querySelectorAll("button[data-sample]")) button.addEventListener("click", () => sample(button.dataset.sample));
tabs();
watch();
$("system").addEventListener("change", (e) => { units.system = e.target.value; app.pondForm.show(app.pond); sliders(); changed(0); });
$("climate").addEventListener("change", (e) => takeClimate(e.target.value));
$("print").addEventListener("click", () => window.print());
$("save-report").addEventListener("click", () => (CHAPTERS[app.chapter] ? saveAnswers(app.chapter, "report", "html") : refuse("Not saved. Turn to a chapter with answers.")));
$("save-json").addEventListener("click", () => download(slug() + ".json", JSON.stringify(app.pond, null, 2) + "\n"));
$("save-lua").addEventListener("click", () => save(["convert", "pond.json", "--to", "saved.lua"], "saved.lua", slug() + ".lua"));
$("afresh").addEventListener("click", () => { localStorage.removeItem(KEPT); note([]); setPond(JSON.parse(JSON.stringify(app.samples.pond))); });
$("as-it-was").addEventListener("click", () => setPond(JSON.parse(app.snapshot)));
window.addEventListener("beforeprint", () => { for (const d of document.querySelectorAll(".chapter:not([open])")) { d.open = true; d.dataset.printed = ""; } });
window.addEventListener("afterprint", () => { for (const d of document.querySelectorAll("[data-printed]")) { d.open = false; delete d.dataset.printed; } });
const unpacking = unpacked($("samples").textContent).then((bytes) => { app.samples = JSON.parse(new TextDecoder().decode(bytes)); });
Promise.all([program.call("form"), unpacking]).then(([form]) => start(form));
app.ask = ask;
app.idle = () => new Promise((done) => {		// nothing is due and nothing is asked
  const look = () => (app.timer || !program.idle() ? setTimeout(look, 10) : done());
  look();
});
window.tarn = app;

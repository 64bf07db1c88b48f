// SPDX-License-Identifier: MIT
// Ties the page together: what it begins with, and its buttons.

function start(form) {
  app.form = form;
  units.factors = form.units;
  let kept = null;
  try { kept = JSON.parse(localStorage.getItem(KEPT)); } catch (error) { /* none */ }
  if (kept && ["us", "metric"].includes(kept.system)) units.system = kept.system;
  document.querySelector(`#system input[value="${units.system}"]`).checked = true;
  app.sheet = new Sheet($("sheet"), form.columns, form.weather, app.weatherState, () => { app.unread = true; changed(); });
  app.questions = new Questions($("questions"), form.begin, () => { if ($("more").open) app.pondForm.show(app.pond); changed(); });
  app.pondForm = new PondForm($("pond-form"), form.sections, () => { asked(); changed(); });
  $("more").addEventListener("toggle", () => { if ($("more").open) app.pondForm.show(app.pond); });
  chapterForms();
  $("climate").append(...form.climates.map((c) => element("option", { value: c.name }, `${c.place}: ${c.kind}`)));
  $("version").textContent = `Tarn ${form.version}`;
  setPond({}, { fresh: true });
  if (kept && kept.pond) restore(kept);
  remember();
  const sent = fromLink();
  if (sent && sent.pond) restore(sent);
  app.ready = true;
  warm();
}

// While nobody has opened a file yet, the sample is read out of sight, so that the
// browser has compiled what the first file needs.
function warm() {
  program.put("warm.csv", new TextEncoder().encode(app.samples["seattle_daily_2012_2015.csv"]));
  program.put("warm.json", JSON.stringify(app.samples.map));
  program.put("warm-pond.json", JSON.stringify(app.samples.pond));
  program.ask("warm", ["topup", "warm-pond.json", "warm.csv", "--map", "warm.json"], 0, (item) => { app.warm = item.kind === "end"; });
}

new Files(OPENS, refuse).watch();
watchHistory();
$("copy-link").addEventListener("click", () => copy(linkOf(), $("copy-link")));
for (const button of document.querySelectorAll("button[data-sample]")) button.addEventListener("click", () => sample(button.dataset.sample));
tabs();
watch();
$("system").addEventListener("change", (e) => { units.system = e.target.value; asked(); app.pondForm.show(app.pond); sliders(); changed(0); });
$("climate").addEventListener("change", (e) => takeClimate(e.target.value));
$("print").addEventListener("click", () => window.print());
$("save-report").addEventListener("click", () => (CHAPTERS[app.chapter] ? saveAnswers(app.chapter, "report", "html") : refuse("Not saved. Turn to a chapter with answers.")));
$("save-json").addEventListener("click", () => download(slug() + ".json", JSON.stringify(app.pond, null, 2) + "\n"));
$("save-lua").addEventListener("click", () => save(["convert", "pond.json", "--to", "saved.lua"], "saved.lua", slug() + ".lua"));
for (const id of ["afresh", "ribbon-own"]) $(id).addEventListener("click", afresh);
$("as-it-was").addEventListener("click", () => setPond(JSON.parse(app.snapshot), { fresh: app.fresh, sample: app.sample }));
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

// SPDX-License-Identifier: MIT
// What stands over all answers: the pond in a few words as it is described now, and the ribbon
// that says what on the page is a sample or a climate.

const begun = () => !app.fresh || app.questions.begun();
const KINDS = { weather: "WEATHER", log: "LOG", measured: "MEASUREMENTS", study: "STUDY" };

function ribbon() {
  const samples = (app.sample ? ["POND"] : []).concat(Object.keys(KINDS).filter((kind) => (app.files[kind] || {}).sample).map((kind) => KINDS[kind]));
  const climate = app.form.climates.find((c) => c.name === app.climate);
  const said = samples.map((kind) => `SAMPLE ${kind}`).concat(climate ? [`A CLIMATE, NOT YOUR WEATHER: ${climate.place}`] : []);
  $("ribbon").hidden = !said.length;
  document.body.classList.toggle("ribboned", said.length > 0);
  $("ribbon-says").replaceChildren(...said.map((s) => element("strong", {}, s)));
  $("ribbon-own").hidden = !samples.length;
}

// Where the weather is from, and its years.
function weatherWords() {
  const climate = app.form.climates.find((c) => c.name === app.climate), { file } = app.facts || {};
  if (climate) return `the climate of ${climate.place}`;
  if (!app.files.weather) return "";
  return app.files.weather.path + (file && file.first && app.facts.of === app.files.weather.path ? `, ${file.first.slice(0, 4)} to ${file.last.slice(0, 4)}` : "");
}

let glanced = "";
async function glance() {
  const pond = JSON.stringify(app.pond), now = pond + units.system;
  if (!begun()) { glanced = now; app.seen = null; tellGlance(); return; }
  if (now !== glanced) {
    glanced = now;
    program.put("pond.json", pond);
    const seen = await program.call("glance", "pond.json", units.system);
    if (now !== glanced) return;
    app.seen = seen;
    if (seen.mistake && !app.answers.water.chapters.size) show("water", seen.mistake, seen.field);
    else if (lineOf("water").wants) show("water", "");
  }
  tellGlance();
}

function tellGlance() {
  const { seen } = app, name = app.pond.name || (app.fresh ? "Your pond" : "The pond"), where = weatherWords(), taken = app.questions.sentences();
  const parts = [element("p", { class: "whose" }, element("b", {}, name), where ? ` with ${where}` : "")];
  if (seen && seen.volume) parts.push(element("p", { class: "holds" }, element("span", { class: "big" }, seen.volume), element("span", { class: "rest" }, ` when full, ${seen.area} of water; ${seen.step}`)));
  if (seen && taken.length) parts.push(element("p", { class: "taken" }, element("b", {}, "Assumed until you say otherwise: "), taken.join("; ") + "."));
  if (!seen) parts.push(element("p", { class: "holds" }, element("span", { class: "rest" }, "Length and width are enough for a first answer; it changes with every answer that you give.")));
  $("glance").replaceChildren(...parts);
  $("peek-says").textContent = seen && seen.volume ? `${seen.volume}. ` : "";
}

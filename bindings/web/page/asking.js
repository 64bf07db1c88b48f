// SPDX-License-Identifier: MIT
// What is asked when, and where a refusal is shown.

const DEBOUNCE = 120;			// ms, after which an entry is asked

function refuse(text) {
  $("refused").textContent = text || "";
  $("refused").hidden = !text;
}

// What the file of the pond says doubtfully: once opened, its numbers all have units.
function note(sentences) {
  $("opened").replaceChildren(...sentences.map((s) => element("li", {}, s)));
  $("opened").hidden = !sentences.length;
}

const optionsOf = (name) => app.form.commands[CHAPTERS[name].command].options.filter((o) => o.value !== "FILE" && !/^(units|threads|part|climate)$/.test(o.name)
  && !app.form.weather.some((w) => w.name === o.name));

const BUCKET = ["off-hours", "on-hours"];

// A climate in the place of a weather file, for the commands that take one.
const climateOf = (name) => (app.form.commands[CHAPTERS[name].command].options.some((o) => o.name === "climate") ? app.climate : "");

// The command line of a chapter, or what it wants for.
function lineOf(name) {
  const c = CHAPTERS[name], state = app.options[name], args = [c.command], bucket = name === "leak" && BUCKET.some((o) => state[o]);
  for (const taken of c.takes) {
    const kind = taken.replace("?", ""), path = kind === "pond" ? (begun() ? "pond.json" : "") : (app.files[kind] || {}).path;
    if (kind === "weather" && climateOf(name)) args.push("--climate", app.climate);
    else if (kind === "pond" && !path) { if (!(bucket && state.area)) return { wants: bucket ? "area" : "pond" }; }
    else if (path && !(bucket && kind === "weather" && !app.files.log)) args.push(path);
    else if (!path && !taken.endsWith("?") && !(bucket && !app.files.log)) return { wants: kind };
  }
  if (args.includes((app.files.weather || {}).path)) args.push(...reading());
  return { args: args.concat("--units", units.system, ...optionArgs(optionsOf(name), state)) };
}

const WANTS = { pond: "Answer the questions about the pond in the first chapter: with length and width the answer begins.",
  area: "A bucket test needs the pond's area before it can speak of gallons: answer the questions in the first chapter, or enter the area here.",
  weather: "Open a daily weather file, or take the sample; Water and Build sheet take a climate too.", log: "Open a log of the level, or take the sample.",
  study: "Open a study file, or take the sample.", measured: "Open a file of measurements, or take the sample." };

function ask(name, rest) {
  const answers = app.answers[name], { args, wants } = lineOf(name), typed = app.questions.typed() || app.pondForm.typed();
  app.due.delete(name);
  $(name + "-wants").textContent = wants ? WANTS[wants] : "";
  if (wants || typed) { answers.stale(Boolean(typed)); show(name, typed); return; }
  program.put("pond.json", JSON.stringify(app.pond));
  if (app.sheet.map) program.put("map.json", JSON.stringify(app.sheet.map));
  delete document.body.dataset.done;
  const from = performance.now();
  answers.begin();
  program.ask(name, args, rest || 0, (item) => {
    answers.hear(item);
    if (item.kind === "block" && !app.timing.heard) app.timing.heard = performance.now() - from;
    if (item.kind === "mistake") { show(name, item.message, item.field); app.refused = item.message; }
    if (item.kind === "end") { show(name, ""); app.refused = ""; }
    if (item.kind === "end" || item.kind === "mistake") {
      app.timing[name] = performance.now() - from;
      app.status[name] = item.status;
      document.body.dataset.done = name;
      peek();
      if (app.unread && app.files.weather) check(name);
    }
  });
}

// How a file is read: its map and what is said of it.
const reading = () => optionArgs(app.form.weather.filter((o) => o.name !== "map"), app.weatherState).concat(app.sheet.map ? ["--map", "map.json"] : []);

// Fills the sheet, once the answers are there; what the file is refused for is said in it.
async function check(name) {
  app.unread = false;
  program.put("pond.json", JSON.stringify(app.pond));
  if (app.sheet.map) program.put("map.json", JSON.stringify(app.sheet.map));
  const { path } = app.files.weather, refused = (app.refused || "").startsWith(path + ":") ? app.refused : "";
  const facts = await program.call("examine", "pond.json", refused, path, ...reading());
  app.sheet.show(facts);
  app.facts = Object.assign(facts, { of: path });
  tellGlance();
  if (name === "water" && (facts.mistake || facts.cannot)) $("water-error").hidden = true;
  document.body.dataset.checked = path;
}

// A refusal: in words over the answers, and at its field.
function show(name, message, field) {
  $(name + "-error").textContent = message;
  $(name + "-error").hidden = !message;
  $(name + "-stale").hidden = !message || !app.answers[name].chapters.size;
  if (name === app.chapter) { app.questions.refuse(message, field); app.pondForm.mark(message, field); }
}

// at: ms until it is asked; rest: ms that a hand has to move on.
function changed(at, rest) {
  for (const name of Object.keys(CHAPTERS)) app.due.add(name);
  keep();
  soon(at === undefined ? DEBOUNCE : at, rest);
}

// Asks the chapter that is open, if one is.
function soon(at, rest) {
  clearTimeout(app.timer);
  app.timer = setTimeout(() => {
    app.timer = 0;
    remember();
    glance();
    if (CHAPTERS[app.chapter]) ask(app.chapter, rest);
  }, at);
}

// SPDX-License-Identifier: MIT
// What is done with a file that was given, by its kind.

// map: of a weather file, null if none was given with it; book: the workbook that it is a
// sheet of.
function take(kind, name, content, map = null, book = null, sample = false) {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  const before = (app.files[kind] || {}).path;
  app.files[kind] = { path: name, bytes, sample };
  program.put(name, bytes);
  for (const at of document.querySelectorAll(`[data-found="${kind}"]`)) at.textContent = book ? `${name}, sheet "${book.name}"` : name;
  if (kind === "weather") {
    $(sample ? "water-saves" : "glance").after($("sheet"));			// of the sample nothing is to be checked before its answer
    $("climate").value = app.climate = "";
    app.sheet.open(name, bytes, map, before === name);
    app.sheet.workbook(book, (sheet) => {
      book.name = sheet;
      take(kind, name, book.bytes(), null, book);
    });
    app.unread = true;
  }
  ribbon();
  changed(0);
}

// A climate takes the place of a weather file, which is put aside.
function takeClimate(name) {
  app.climate = name;
  delete app.files.weather;
  for (const at of document.querySelectorAll('[data-found="weather"]')) at.textContent = "";
  $("sheet").hidden = true;
  ribbon();
  changed(0);
}

async function openPond(name, bytes) {
  program.put(name, bytes);
  const { description, mistake, notes } = await program.call("description", name, units.system);
  note(mistake ? [mistake] : notes);
  if (mistake) $("opened").scrollIntoView({ block: "nearest" });
  else {
    const { pond, told } = shaped(description, app.form.sections);
    if (told.length) note([...notes, ...told]);
    if (pond) setPond(pond, {});
  }
}

// Fields that the browser kept by a name of the version before.
function renamed(pond) {
  for (const { section, rows } of app.form.sections) {
    const at = section ? pond[section] : pond;
    for (const row of rows) {
      if (!row.was || !at || at[row.was] === undefined || at[row.name] !== undefined) continue;
      at[row.name] = at[row.was];
      delete at[row.was];
    }
  }
  return pond;
}

// The questions show what the description says, where no hand is among them.
function asked() { if (!$("questions").contains(document.activeElement)) app.questions.show(app.pond, app.questions.assumed); }

// fresh: it began here, with the questions; sample: it is the page's; assumed: what nobody has said of it.
// One that was kept or sent: in the shape and by the names of now.
function restore(kept) {
  const { pond, told } = shaped(kept.pond, app.form.sections);
  note(told);
  if (pond) setPond(renamed(pond), kept);
}

function setPond(description, { fresh, sample, assumed }) {
  Object.assign(app, { pond: description, fresh: Boolean(fresh), sample: Boolean(sample) });
  app.questions.show(app.pond, assumed);
  app.snapshot = JSON.stringify(description);
  app.pondForm.show(app.pond);
  sliders();
  ribbon();
  changed(0);
}

// Nothing is left of the pond, nor of samples.
function afresh() {
  remember();
  try { localStorage.removeItem(KEPT); } catch (error) { /* none was kept */ }
  note([]);
  for (const [kind, file] of Object.entries(app.files)) {
    if (!file.sample) continue;
    delete app.files[kind];
    for (const at of document.querySelectorAll(`[data-found="${kind}"]`)) at.textContent = "";
    if (kind === "weather") $("sheet").hidden = true;
  }
  for (const name of Object.keys(CHAPTERS)) app.answers[name].clear();
  setPond({}, { fresh: true });
  turnTo("water");
}

// The chapter that a file of a kind belongs to.
function turnFor(kind) {
  const takes = (name) => CHAPTERS[name] && CHAPTERS[name].takes.some((t) => t.replace("?", "") === kind);
  if (!takes(app.chapter) || (kind === "weather" && app.chapter !== "water")) turnTo(Object.keys(CHAPTERS).find(takes));
}

const OPENS = {
  pond: (name, bytes) => { turnFor("pond"); return openPond(name, bytes); },
  map: async (name) => {
    const { description, mistake } = await program.call("description", name, units.system);
    if (mistake) { refuse(mistake); return; }
    if (app.files.weather) take("weather", app.files.weather.path, app.files.weather.bytes, description);
    else refuse("This is a map of a weather file: open the weather file first, or both at a time.");
  },
};
for (const kind of ["weather", "log", "study", "measured"]) OPENS[kind] = (name, bytes, book) => { turnFor(kind); take(kind, name, bytes, null, book); };

// A sample is one of the program's own files.
function sample(kind) {
  if (kind === "pond") { note([]); setPond(JSON.parse(JSON.stringify(app.samples.pond)), { sample: true }); return; }
  const path = { weather: "seattle_daily_2012_2015.csv", log: "courtyard-log.csv", study: "courtyard-study.lua", measured: "courtyard-measured.lua" }[kind];
  if (CHAPTERS[app.chapter].takes.includes("weather") && kind !== "weather" && !app.files.weather) sample("weather");
  take(kind, path, app.samples[path], kind === "weather" ? app.samples.map : null, null, true);
}

// SPDX-License-Identifier: MIT
// What is done with a file that was given, by its kind.

// map: of a weather file, null if none was given with it; book: the workbook that it is a
// sheet of.
function take(kind, name, content, map = null, book = null) {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  const before = (app.files[kind] || {}).path;
  app.files[kind] = { path: name, bytes };
  program.put(name, bytes);
  for (const at of document.querySelectorAll(`[data-found="${kind}"]`)) at.textContent = book ? `${name}, sheet "${book.name}"` : name;
  if (kind === "weather") {
    $("climate").value = app.climate = "";
    app.sheet.open(name, bytes, map, before === name);
    app.sheet.workbook(book, (sheet) => {
      book.name = sheet;
      take(kind, name, book.bytes(), null, book);
    });
    app.unread = true;
  }
  changed(0);
}

// A climate takes the place of a weather file, which is put aside.
function takeClimate(name) {
  app.climate = name;
  delete app.files.weather;
  for (const at of document.querySelectorAll('[data-found="weather"]')) at.textContent = "";
  $("sheet").hidden = true;
  changed(0);
}

async function openPond(name, bytes) {
  program.put(name, bytes);
  const { description, mistake, notes } = await program.call("description", name, units.system);
  note(mistake ? [mistake] : notes);
  if (mistake) $("opened").scrollIntoView({ block: "nearest" });
  else setPond(description);
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

function setPond(description) {
  app.pond = description;
  app.snapshot = JSON.stringify(description);
  app.pondForm.show(app.pond);
  sliders();
  changed(0);
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
  const path = { weather: "seattle_daily_2012_2015.csv", log: "courtyard-log.csv", study: "courtyard-study.lua", measured: "courtyard-measured.lua" }[kind];
  if (CHAPTERS[app.chapter].takes.includes("weather") && kind !== "weather" && !app.files.weather) sample("weather");
  take(kind, path, app.samples[path], kind === "weather" ? app.samples.map : null);
}

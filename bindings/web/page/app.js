// SPDX-License-Identifier: MIT
// Ties the page together: chapters, files, and what is asked when.

const app = { pond: null, files: {}, options: {}, answers: {}, status: {}, timing: {} };

// Chapters: their command, the files it takes (? may be left out), their saves.
const CHAPTERS = {
  water: { command: "topup", takes: ["pond", "weather"], saves: { report: "html", csv: "csv" } },
  bed: { command: "bed", takes: ["pond"], saves: { report: "html", csv: "csv", drawing: "svg" } },
  sheet: { command: "sheet", takes: ["pond", "weather?"], saves: { report: "html" } },
  leak: { command: "leak", takes: ["pond", "weather", "log"], saves: { report: "html", svg: "svg" } },
  commission: { command: "commission", takes: ["pond", "measured"], saves: { report: "html" } },
  whatif: { command: "whatif", takes: ["pond", "weather", "study"], saves: { report: "html", csv: "csv" } },
};

// What the sliders of the bed set, and between which values (SI).
const SLIDERS = [["bed.flow", 2e-5, 4e-3], ["bed.length", 0.3, 6], ["bed.width", 0.3, 8], ["bed.cover", 0, 0.3], ["fish.mass", 0, 40], ["water.temp", 2, 30]];
const DEBOUNCE = 120, KEPT = "tarn.pond";

(() => {
  const $ = (id) => document.getElementById(id);
  let SAMPLES, form, pondForm, sheet, chapter = "water", timer = 0, snapshot = null;
  const due = new Set(Object.keys(CHAPTERS));		// chapters older than the entries
  const weatherState = {};

  function refuse(text) {
    $("refused").textContent = text || "";
    $("refused").hidden = !text;
  }

  // What the file of the pond says doubtfully: once opened, its numbers all have units.
  function note(sentences) {
    $("opened").replaceChildren(...sentences.map((s) => element("li", {}, s)));
    $("opened").hidden = !sentences.length;
  }

  // ---- asking ---------------------------------------------------------------------

  const optionsOf = (name) => form.commands[CHAPTERS[name].command].options.filter((o) => o.value !== "FILE" && !/^(units|threads|part)$/.test(o.name)
    && !form.weather.some((w) => w.name === o.name));

  const BUCKET = ["off-hours", "on-hours"];

  // The command line of a chapter, or what it wants for.
  function lineOf(name) {
    const c = CHAPTERS[name], state = app.options[name], args = [c.command], bucket = name === "leak" && BUCKET.some((o) => state[o]);
    for (const taken of c.takes) {
      const kind = taken.replace("?", ""), path = kind === "pond" ? "pond.json" : (app.files[kind] || {}).path;
      if (path && !(bucket && kind === "weather" && !app.files.log)) args.push(path);
      else if (!path && !taken.endsWith("?") && !(bucket && !app.files.log)) return { wants: kind };
    }
    if (args.includes((app.files.weather || {}).path)) {
      args.push(...reading());
    }
    return { args: args.concat("--units", units.system, ...optionArgs(optionsOf(name), state)) };
  }

  const WANTS = { weather: "Open a daily weather file, or take the sample.", log: "Open a log of the level, or take the sample.",
    study: "Open a study file, or take the sample.", measured: "Open a file of measurements, or take the sample." };

  function ask(name, rest) {
    const answers = app.answers[name], { args, wants } = lineOf(name), typed = pondForm.typed();
    due.delete(name);
    $(name + "-wants").textContent = wants ? WANTS[wants] : "";
    if (wants || typed) { answers.stale(Boolean(typed)); show(name, typed); return; }
    program.put("pond.json", JSON.stringify(app.pond));
    if (sheet.map) program.put("map.json", JSON.stringify(sheet.map));
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
  const reading = () => optionArgs(form.weather.filter((o) => o.name !== "map"), weatherState).concat(sheet.map ? ["--map", "map.json"] : []);

  // Fills the sheet, once the answers are there; what the file is refused for is said in it.
  async function check(name) {
    app.unread = false;
    program.put("pond.json", JSON.stringify(app.pond));
    if (sheet.map) program.put("map.json", JSON.stringify(sheet.map));
    const facts = await program.call("examine", "pond.json", app.files.weather.path, ...reading());
    sheet.show(facts);
    app.facts = facts;
    const own = app.files.weather.path + ":", refused = app.refused || "";
    if (!facts.mistake && !facts.cannot && refused.startsWith(own)) sheet.refuse(refused.slice(own.length));
    if (name === "water" && (facts.mistake || facts.cannot || refused.startsWith(own))) $("water-error").hidden = true;
    document.body.dataset.checked = app.files.weather.path;
  }

  // A refusal: in words over the answers, and at its field.
  function show(name, message, field) {
    $(name + "-error").textContent = message;
    $(name + "-error").hidden = !message;
    $(name + "-stale").hidden = !message || !app.answers[name].chapters.size;
    if (name === chapter) pondForm.mark(message, field);
  }

  // at: ms until it is asked; rest: ms that a hand has to move on.
  function changed(at, rest) {
    for (const name of Object.keys(CHAPTERS)) due.add(name);
    keep();
    soon(at === undefined ? DEBOUNCE : at, rest);
  }

  // Asks the chapter that is open, if a chapter is.
  function soon(at, rest) {
    clearTimeout(timer);
    timer = setTimeout(() => {
      timer = 0;
      if (CHAPTERS[chapter]) ask(chapter, rest);
    }, at);
  }

  // ---- files ----------------------------------------------------------------------

  // A map is of one weather file: the next one begins without, but for 'mapped'.
  function take(kind, name, content, mapped) {
    const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
    if (kind === "weather" && !mapped) sheet.map = null;
    const before = (app.files[kind] || {}).path;
    app.files[kind] = { path: name, bytes };
    program.put(name, bytes);
    for (const at of document.querySelectorAll(`[data-found="${kind}"]`)) at.textContent = name;
    if (kind === "weather") {
      if (before && before !== name) for (const o of Object.keys(weatherState)) delete weatherState[o];	// another file's place
      sheet.open(name, bytes);
      app.unread = true;
    }
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
    for (const { section, rows } of form.sections) {
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
    snapshot = JSON.stringify(description);
    pondForm.show(app.pond);
    sliders();
    changed(0);
  }

  function keep() {
    try { localStorage.setItem(KEPT, JSON.stringify({ pond: app.pond, system: units.system })); } catch (error) { /* no room: not kept */ }
  }

  // The chapter that a file of a kind belongs to.
  function turnFor(kind) {
    const takes = (name) => CHAPTERS[name] && CHAPTERS[name].takes.some((t) => t.replace("?", "") === kind);
    if (!takes(chapter) || (kind === "weather" && chapter !== "water")) turnTo(Object.keys(CHAPTERS).find(takes));
  }

  const OPENS = {
    pond: (name, bytes) => { turnFor("pond"); return openPond(name, bytes); },
    map: async (name) => {
      const { description, mistake } = await program.call("description", name, units.system);
      if (mistake) { refuse(mistake); return; }
      sheet.map = description;
      if (app.files.weather) take("weather", app.files.weather.path, app.files.weather.bytes, true);
    },
  };
  for (const kind of ["weather", "log", "study", "measured"]) OPENS[kind] = (name, bytes) => { turnFor(kind); take(kind, name, bytes); };

  // A sample is one of the program's own files.
  function sample(kind) {
    const path = { weather: "seattle_daily_2012_2015.csv", log: "courtyard-log.csv", study: "courtyard-study.lua", measured: "courtyard-measured.lua" }[kind];
    if (CHAPTERS[chapter].takes.includes("weather") && kind !== "weather" && !app.files.weather) sample("weather");
    if (kind === "weather") sheet.map = JSON.parse(JSON.stringify(SAMPLES.map));
    take(kind, path, SAMPLES[path], true);
  }

  // ---- saving ---------------------------------------------------------------------

  function download(name, content) {
    const url = URL.createObjectURL(new Blob([content])), a = element("a", { href: url, download: name });
    a.click();
    setTimeout(() => URL.revokeObjectURL(url), 1000);
  }

  const slug = () => (app.pond.name || "pond").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "pond";

  async function save(args, path, name) {
    const typed = pondForm.typed();
    if (typed) { refuse("Not saved. " + typed); return; }
    program.put("pond.json", JSON.stringify(app.pond));
    const { bytes, mistake } = await program.write(args, path);
    refuse(mistake ? "Not saved. " + mistake : "");
    if (bytes) download(name, bytes);
  }

  function saveAnswers(name, option, ending) {
    const { args, wants } = lineOf(name);
    if (wants) { refuse("Not saved. " + WANTS[wants]); return; }
    save(args.concat("--" + option, "saved." + ending), "saved." + ending, `${slug()}-${name}.${ending}`);
  }

  // ---- the bed's sliders --------------------------------------------------------------

  function sliders() {
    $("sliders").replaceChildren(...SLIDERS.map(([path, low, high]) => {
      const [section, name] = path.split("."), row = form.sections.find((s) => s.section === section).rows.find((r) => r.name === name);
      const asked = units.asked(path, row.unit), given = (app.pond[section] || {})[name], id = "s-" + section + "-" + name;
      const out = element("output", { for: id }), bend = low > 0 && high / low > 30;
      const place = (si) => (bend ? Math.log(si / low) / Math.log(high / low) : (si - low) / (high - low)) * 1000;
      const input = element("input", { type: "range", id, min: 0, max: 1000, step: 1, oninput: () => {
        const at = Number(input.value) / 1000, si = bend ? low * (high / low) ** at : low + (high - low) * at;
        app.pond[section] = app.pond[section] || {};
        app.pond[section][name] = si;
        tell(si);
        changed(0, 150);
      } });
      const tell = (si) => { out.textContent = si === undefined ? "not said" : `${Number(units.inUnit(si, asked).toPrecision(3))} ${asked.label}`; };
      input.value = given === undefined ? 0 : Math.round(place(given));
      tell(given);
      return element("div", { class: "slider" }, element("div", { class: "top" }, element("label", { for: id }, named(section) + " " + named(name)), out),
        element("p", { class: "what" }, row.meaning), input);
    }));
  }

  // ---- chapters --------------------------------------------------------------------

  function turnTo(name) {
    if (chapter === "bed" && name !== "bed") pondForm.show(app.pond);
    if (CHAPTERS[chapter] && !app.answers[chapter].over) due.add(chapter);
    chapter = name;
    for (const tab of document.querySelectorAll('[role="tab"]')) {
      const mine = tab.id === "tab-" + name;
      tab.setAttribute("aria-selected", String(mine));
      tab.tabIndex = mine ? 0 : -1;
      $(tab.getAttribute("aria-controls")).hidden = !mine;
    }
    if (due.has(name)) ask(name);
    peek();
  }

  // On a narrow screen a bar at the bottom leads to the answers while none is in sight.
  const inSight = new Set();
  function peek() {
    const right = $(chapter + "-right");
    $("peek").hidden = !right || inSight.has(right) || !app.answers[chapter] || !app.answers[chapter].chapters.size;
    if (right) $("peek").href = "#" + right.id;
  }

  function watch() {
    const observer = new IntersectionObserver((entries) => {
      for (const e of entries) e.isIntersecting ? inSight.add(e.target) : inSight.delete(e.target);
      peek();
    });
    for (const right of document.querySelectorAll(".right")) observer.observe(right);
  }

  function tabs() {
    const all = Array.from(document.querySelectorAll('[role="tab"]'));
    for (const tab of all) tab.addEventListener("click", () => turnTo(tab.id.slice(4)));
    document.querySelector('[role="tablist"]').addEventListener("keydown", (e) => {
      const step = { ArrowRight: 1, ArrowLeft: -1 }[e.key];
      if (!step) return;
      const next = all[(all.indexOf(document.activeElement) + step + all.length) % all.length];
      next.focus();
      turnTo(next.id.slice(4));
    });
  }

  function chapterForms() {
    for (const [name, c] of Object.entries(CHAPTERS)) {
      app.options[name] = {};
      app.answers[name] = new Answers($(name + "-answers"));
      optionForm($(name + "-options"), optionsOf(name), app.options[name], () => { due.add(name); soon(DEBOUNCE); });
      $(name + "-saves").append(...Object.entries(c.saves).map(([option, ending]) => element("button", { type: "button", id: `${name}-save-${option}`,
        onclick: () => saveAnswers(name, option, ending) }, `Save the ${{ report: "report", csv: "table (CSV)", drawing: "cross-section (SVG)", svg: "figure (SVG)" }[option]}`)));
    }
  }

  function start(asked) {
    form = asked;
    units.factors = form.units;
    let kept = null;
    try { kept = JSON.parse(localStorage.getItem(KEPT)); } catch (error) { /* none */ }
    if (kept && kept.system) units.system = kept.system;
    document.querySelector(`#system input[value="${units.system}"]`).checked = true;
    sheet = new Sheet($("sheet"), form.columns, form.weather, weatherState, () => { app.unread = true; changed(); });
    pondForm = new PondForm($("pond-form"), form.sections, () => changed());
    chapterForms();
    $("version").textContent = `Tarn ${form.version}`;
    setPond(kept && kept.pond ? renamed(kept.pond) : JSON.parse(JSON.stringify(SAMPLES.pond)));
    app.ready = true;
    warm();
  }

  // While nobody has opened a file yet, the sample is read out of sight, so that the
  // browser has compiled what the first file needs.
  function warm() {
    program.put("warm.csv", new TextEncoder().encode(SAMPLES["seattle_daily_2012_2015.csv"]));
    program.put("warm.json", JSON.stringify(SAMPLES.map));
    program.put("pond.json", JSON.stringify(app.pond));
    program.ask("warm", ["topup", "pond.json", "warm.csv", "--map", "warm.json"], 0, (item) => { app.warm = item.kind === "end"; });
  }

  new Files(OPENS, refuse).watch();
  for (const button of document.querySelectorAll("button[data-sample]")) button.addEventListener("click", () => sample(button.dataset.sample));
  tabs();
  watch();
  $("system").addEventListener("change", (e) => { units.system = e.target.value; pondForm.show(app.pond); sliders(); changed(0); });
  $("print").addEventListener("click", () => window.print());
  $("save-report").addEventListener("click", () => (CHAPTERS[chapter] ? saveAnswers(chapter, "report", "html") : refuse("Not saved. Turn to a chapter with answers.")));
  $("save-json").addEventListener("click", () => download(slug() + ".json", JSON.stringify(app.pond, null, 2) + "\n"));
  $("save-lua").addEventListener("click", () => save(["convert", "pond.json", "--to", "saved.lua"], "saved.lua", slug() + ".lua"));
  $("afresh").addEventListener("click", () => { localStorage.removeItem(KEPT); note([]); setPond(JSON.parse(JSON.stringify(SAMPLES.pond))); });
  $("as-it-was").addEventListener("click", () => setPond(JSON.parse(snapshot)));
  window.addEventListener("beforeprint", () => { for (const d of document.querySelectorAll(".chapter:not([open])")) { d.open = true; d.dataset.printed = ""; } });
  window.addEventListener("afterprint", () => { for (const d of document.querySelectorAll("[data-printed]")) { d.open = false; delete d.dataset.printed; } });
  const samples = unpacked($("samples").textContent).then((bytes) => { SAMPLES = JSON.parse(new TextDecoder().decode(bytes)); });
  Promise.all([program.call("form"), samples]).then(([asked]) => start(asked));
  Object.defineProperty(app, "sheet", { get: () => sheet });
  app.ask = ask;
  app.idle = () => new Promise((done) => {		// nothing is due and nothing is asked
    const look = () => (timer || !program.idle() ? setTimeout(look, 10) : done());
    look();
  });
  window.tarn = app;
})();

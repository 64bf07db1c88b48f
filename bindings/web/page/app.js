// SPDX-License-Identifier: MIT
// Starts the page and ties its parts together.

const app = { pond: null, job: null, timing: {}, ready: null };

(() => {
  const $ = (id) => document.getElementById(id);
  // The picture comes to the screen before the next sums begin; a page in the
  // background has no frames, and waits for none.
  const painted = () => new Promise((done) => {
    requestAnimationFrame(() => setTimeout(done, 0));
    setTimeout(done, 250);
  });
  const pause = () => new Promise((done) => setTimeout(done, 0));
  let run = 0;			// number of the newest computation
  let timer = 0;
  let under = null;		// a computation under way

  function showError(id, error) {
    $(id).textContent = error ? error.message : "";
    $(id).hidden = !error;
  }

  function guard(action, id) {
    try {
      action();
      showError(id, null);
      return true;
    } catch (error) {
      if (!(error instanceof Mistake)) throw error;
      showError(id, error);
      return error;
    }
  }

  const inSight = new Map();

  // Pictures anew, for another width or for paper.
  function redraw() {
    charts.measure();
    if (app.job && !$("chapter-water").hidden) water.renderAll(app.job);
    if (!$("chapter-bed").hidden) bed.now();
  }

  // On a narrow screen the answer peeks up from below.
  function peek() {
    const bar = $("peek"), tab = document.querySelector('[role="tab"][aria-selected="true"]').id;
    const words = { "tab-water": app.job ? document.querySelector("#headline strong") : null, "tab-bed": document.querySelector("#bed-headline strong") }[tab];
    bar.hidden = !words || Array.from(inSight.values()).some((v) => v);
    if (words) bar.textContent = `${words.textContent}: see the answers`;
    bar.href = tab === "tab-bed" ? "#bed-answers" : "#answers";
  }

  // ---- what is refused --------------------------------------------------------------

  // Answers that are not of what is entered now say so, on a screen and on paper.
  function stale(on) {
    const old = on && app.job !== null;
    $("answers").classList.toggle("stale", old);
    $("stale").hidden = !old;
  }

  // The first of these that is refused now, "" if none is; 'forms' hold fields.
  function refusal(errors, forms) {
    const error = errors.map($).find((e) => !e.hidden && e.textContent);
    if (error) return error.textContent;
    const field = forms.map((id) => $(id).querySelector(".field.bad")).find(Boolean);
    return field ? `${form.labelOf(field)}: ${field.querySelector(".problem").textContent}` : "";
  }

  // May a file be written? If not, it is said why.
  function may(errors, forms) {
    const why = refusal(errors, forms);
    showError("refused", why ? new Mistake(`Not saved. ${why}`) : null);
    return !why;
  }

  function savePond(ending, write, type) {
    applyPond();
    if (may(["pond-error"], ["pond-form", "bed-form"])) files.save(files.slug(app.pond.name) + ending, write(app.pond), type);
  }

  // What is under way is awaited, so that answers and inputs are of one pond.
  async function saveAnswers(write) {
    while (timer || under) {
      if (timer) compute();
      await under;
    }
    applyPond();
    report.refresh();
    if (may(["weather-error", "pond-error", "bed-error", "log-error", "leak-error"], ["pond-form", "bed-form", "log-form", "leak-form"])) write();
  }

  // ---- computing ------------------------------------------------------------------

  function applyPond() {
    const done = guard(() => describe.apply(app.pond), "pond-error");
    app.refused = done === true ? "" : done.message;
    if (done === true) {
      form.mark(null);
      sketch.show($("sketch"));
      return true;
    }
    const said = words.pond(done);
    form.mark(done, said.text);
    $("pond-error").textContent = said.label + said.text;
    return false;
  }

  // The runner puts the file's name before what evaporation or ledger refuse.
  function runLedger() {
    try {
      return ledger.run(app.pond);
    } catch (error) {
      if (!(error instanceof Mistake)) throw error;
      throw new Mistake(`${weather.state.name}: ${error.message}`, error.field);
    }
  }

  function compute(after) {
    clearTimeout(timer);
    timer = 0;
    const mine = under = reckon(after).finally(() => { if (under === mine) under = null; });
  }

  // 'after' is done when the first picture is seen, or there is none to come.
  async function reckon(after = () => {}) {
    const mine = ++run, begun = performance.now();
    delete document.body.dataset.done;
    const sound = applyPond();
    stale(!sound || !weather.state.read);
    if (!sound || !weather.state.read) {
      after();
      app.keep();
      return;
    }
    const done = guard(() => { app.job = runLedger(); }, "weather-error");
    if (done !== true) {
      after();
      weatherRefused(done);
      stale(true);
      return;
    }
    const job = app.job;
    app.timing.run = performance.now() - begun;
    water.render(job);
    peek();
    app.timing.picture = performance.now() - begun;
    const more = async () => { await pause(); return mine === run; };
    await painted();
    app.keep();
    after();
    if (app.job === job) water.renderRest(job);
    await pause();
    if (mine !== run) return;
    const endurance = await ledger.endurance(job, more);
    if (mine !== run) return;
    const band = await ledger.band(job, more);
    if (mine !== run) return;
    Object.assign(job, { endurance, band });
    water.renderLater(job);
    app.timing.all = performance.now() - begun;
    document.body.dataset.done = String(mine);
  }

  function later() {
    run += 1;			// what is under way is of no use any more
    delete document.body.dataset.done;
    clearTimeout(timer);
    timer = setTimeout(() => compute(), 120);
  }

  // ---- weather ----------------------------------------------------------------------

  // In the page's words, with the answer that would mend it opened.
  function weatherRefused(error) {
    const key = weather.asksFor(error.message);
    questions.ask(key);
    $("weather-error").textContent = words.weather(error.message, questions.labelOf(key));
  }

  function readWeather() {
    delete document.body.dataset.done;
    const begun = performance.now();
    const done = guard(() => weather.read(), "weather-error");
    app.timing.read = performance.now() - begun;
    weather.state.read = done === true;
    weather.state.error = done === true ? "" : done.message;
    weather.state.readName = weather.state.name;
    if (done !== true) {
      questions.build();
      weatherRefused(done);
      $("weather-found").innerHTML = "";
      stale(true);
      return;
    }
    compute(() => { questions.build(); water.found(); });
  }

  async function openWeather(file) {
    app.timing = { dropped: performance.now() };
    weather.open(file.name, new Uint8Array(await file.arrayBuffer()), {});
    readWeather();
    app.timing.total = performance.now() - app.timing.dropped;
  }

  function sampleAnswers() {
    const m = SAMPLE.map;
    return {
      layout: m.layout, date: m.date.name, format: m.date.format, columns: JSON.parse(JSON.stringify(m.columns)),
      latitude: m.latitude, elevation: m.elevation, windHeight: m.wind_height,
    };
  }

  app.openSample = openSample;
  const sampleFile = async () => ({ name: SAMPLE.name, bytes: await files.unpack(SAMPLE.csv), answers: sampleAnswers() });

  async function openSample() {
    const { name, bytes, answers } = await sampleFile();
    weather.open(name, bytes, answers);
    readWeather();
  }

  // ---- pond ---------------------------------------------------------------------------

  function usePond(pond) {
    app.pond = pond;
    // the core must know the basin before levels can be shown under its edge
    guard(() => describe.apply(pond), "pond-error");
    form.build();
    compute();
  }

  async function openJson(file) {
    const text = await file.text();
    let pond = null;
    const done = guard(() => { pond = files.fromJson(text, file.name); }, "pond-error");
    if (done === true) usePond(pond);
    else {
      app.refused = done.message;
      form.mark(null);
    }
  }

  function take(file) {
    if (/\.(json|lua)$/i.test(file.name)) openJson(file);
    else if (!$("chapter-leak").hidden) logbook.take(file);
    else openWeather(file);
  }

  const copy = (x) => JSON.parse(JSON.stringify(x));

  // ---- chapters --------------------------------------------------------------------------

  const tabs = Array.from(document.querySelectorAll('[role="tab"]'));
  function show(tab) {
    for (const t of tabs) {
      const on = t === tab;
      t.setAttribute("aria-selected", String(on));
      t.tabIndex = on ? 0 : -1;
      $(t.getAttribute("aria-controls")).hidden = !on;
    }
    if (tab.id === "tab-bed") bed.open();
    if (tab.id === "tab-leak") leak.open();
    peek();
    if (tab.id === "tab-water") redraw();
  }

  function wireTabs() {
    for (const tab of tabs) {
      tab.addEventListener("click", () => show(tab));
      tab.addEventListener("keydown", (event) => {
        const list = tabs.filter((t) => !t.hidden), at = list.indexOf(tab);
        const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: list.length - 1 }[event.key];
        if (to === undefined) return;
        const next = list[(to + list.length) % list.length];
        event.preventDefault();
        next.focus();
        show(next);
      });
    }
  }

  function setSystem(name) {
    units.system = name;
    document.querySelector(`#system input[value="${name}"]`).checked = true;
    form.build();
    if (app.job) water.renderAll(app.job);
    if (!$("chapter-bed").hidden) bed.open();
    if (!$("chapter-leak").hidden) leak.open();
    applyPond();
    files.remember({ pond: app.pond, system: name });
  }

  function wire() {
    wireTabs();
    form.onChange(later);
    questions.onChange(readWeather);
    files.onDrop(take);
    $("pond-name").addEventListener("input", (e) => { app.pond.name = e.target.value || undefined; later(); });
    $("choose-weather").addEventListener("click", () => $("weather-file").click());
    $("weather-file").addEventListener("change", (e) => { if (e.target.files[0]) openWeather(e.target.files[0]); });
    $("open-json").addEventListener("click", () => $("json-file").click());
    $("json-file").addEventListener("change", (e) => { if (e.target.files[0]) openJson(e.target.files[0]); e.target.value = ""; });
    $("sample").addEventListener("click", openSample);
    $("save-json").addEventListener("click", () => savePond(".json", files.toJson, "application/json"));
    $("save-lua").addEventListener("click", () => savePond(".lua", files.toLua, "text/plain"));
    $("afresh").addEventListener("click", () => { usePond(copy(SAMPLE.pond)); files.forget(); });
    $("print").addEventListener("click", () => print());
    $("save-report").addEventListener("click", () => saveAnswers(report.save));
    // a refusal stands until the reader goes on
    for (const event of ["click", "input"]) addEventListener(event, () => showError("refused", null), true);
    for (const input of document.querySelectorAll("#system input")) input.addEventListener("change", () => setSystem(input.value));
    $("results").addEventListener("click", (event) => {
      const zoom = event.target.dataset.zoom;
      if (zoom) charts.zoom(zoom);
      if (event.target.id === "save-csv") saveAnswers(() => files.save(files.slug(app.pond.name) + "-ledger.csv", ledger.csv(app.job), "text/csv"));
      if (event.target.id === "print-too") print();
    });
    let width = innerWidth;
    addEventListener("resize", () => {
      if (innerWidth === width) return;
      width = innerWidth;
      redraw();
    });
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", charts.again);
    // paper is white, whatever the screen
    addEventListener("beforeprint", () => { document.documentElement.dataset.ink = "print"; redraw(); });
    addEventListener("afterprint", () => { delete document.documentElement.dataset.ink; redraw(); });
    // the bar that leads to the answers is of no use beside them
    const seen = new IntersectionObserver((list) => { for (const e of list) inSight.set(e.target, e.isIntersecting); peek(); });
    for (const id of ["headline", "results", "bed-headline", "bed-results"]) seen.observe($(id));
  }

  app.ready = (async () => {
    await core.start(await files.unpack(WASM));
    const kept = files.recall();
    if (kept && kept.system === "metric") units.system = "metric";
    document.querySelector(`#system input[value="${units.system}"]`).checked = true;
    $("version").textContent = `Tarn ${core.say("version")}, MIT licence; charts by uPlot, C library musl, both MIT licence: their notices stand at the end of the page.`;
    $("cautions").innerHTML = water.CAUTIONS.map((c) => `<li>${esc(c)}</li>`).join("");
    wire();
    water.empty();
    questions.build();
    usePond(kept && kept.pond ? kept.pond : copy(SAMPLE.pond));
    app.core = core;
    // what tests read
    app.allDays = ledger.allDays;
    app.periods = ledger.periods;
    app.check = () => bed.state.check;
    app.stack = () => bed.state.stack;
    app.room = () => bed.state.room;
    app.pair = () => leak.state.result;
    app.weather = () => ({ name: weather.state.readName });
    app.readError = () => weather.state.error;
    app.fit = () => logbook.state;
    app.warm = warm.start(await sampleFile());
  })();
  // The pond as it is now stays for the next time.
  app.keep = () => files.remember({ pond: app.pond, system: units.system });
  // After a change from outside the form.
  app.changed = () => { form.build(); compute(); };
  window.tarn = app;		// for the tests, and for the curious
})();

// SPDX-License-Identifier: MIT
// A log of levels against the weather: the file, its options, and the fit.

const logbook = (() => {
  const { el } = form;
  const fieldOf = (section, name) => LOG_FIELDS.find((s) => s.section === section).rows.find((r) => r.name === name);
  const none = () => ({ log: {}, leak: {} });
  const state = { name: "", bytes: null, options: none(), result: null, error: "" };
  const INCH = () => units.factor("inch");

  // ---- what the reader gives --------------------------------------------------

  function select(id, words, what, section, name, titles) {
    const row = fieldOf(section, name), given = state.options[section];
    const s = el("select", { id, onchange: () => { given[name] = Number(s.value); now(); } },
      ...row.choices.map((c, i) => el("option", { value: String(i) }, (titles || {})[c] || c)));
    s.value = String(given[name] === undefined ? row.choices.indexOf(row.default) : given[name]);
    return form.line(id, words, what, s);
  }

  function number(id, words, what, name, unit) {
    return form.numberLine(id, words, what, unit, () => state.options.leak[name], (v) => { state.options.leak[name] = v; now(); });
  }

  function build() {
    const depth = units.asked("size.diameter", "m"), before = document.getElementById("log-options");
    document.getElementById("log-form").replaceChildren(el("details", { id: "log-options", open: Boolean(before && before.open) }, el("summary", {}, "How the log is read"),
      select("g-unit", "Unit of the ruler", "if its heading does not say", "log", "unit"), select("g-sign", "It counts", "if its heading is wrong", "log", "sign"),
      select("g-dates", "Dates are written", "", "log", "dates", { ymd: "2024-07-31", mdy: "7/31/2024", dmy: "31/7/2024" }),
      number("g-zero", "The ruler's zero", "above the floor; blank: the overflow, or the floor where it counts up", "zero", units.asked("level", "m")),
      number("g-hour", "Hour of readings without a time", "blank: 8", "hour", { factor: 1, label: "h" }),
      number("g-error", "Error of one reading", "blank: a sixteenth of an inch", "reading_error", depth),
      number("g-matters", "A loss worth searching for, a day", "blank: an eighth of an inch", "matters", units.asked("", "mm/d")),
      select("g-rises", "A rise without rain or note", "", "leak", "unnoted", { refuse: "stops the reading", set_aside: "is set aside" })));
  }

  function open(name, bytes) {
    state.name = name;
    state.bytes = bytes;
    build();
    now();
  }

  async function openSample() {
    if (!weather.state.read) await app.openSample();
    open(SAMPLE.log.name, new TextEncoder().encode(SAMPLE.log.text));
  }

  // ---- the fit ----------------------------------------------------------------

  function give(section) {
    const given = state.options[section];
    for (const name of Object.keys(given)) if (given[name] !== undefined) core.must("set", section, name, 0, given[name]);
  }

  const estimate = (at) => core.read("estimate", at);

  function intervals() {
    const count = core.call("log_interval_count"), list = core.readAll("interval", core.call("log_intervals"), count);
    const days = core.columns("reading", core.call("log_readings"), core.call("log_count"), ["day"]).day;
    return list.map((v) => Object.assign(v, { from: days[v.from], to: days[v.to] }));
  }

  function weeks(count) {
    const out = [];
    for (let at = 0; at < count; at = core.call("log_week_next")) {
      const w = core.read("meter_week", core.call("log_week", at));
      if (w.days > 0) out.push(w);
    }
    return out;
  }

  // Everything that is told, as one object.
  function fit() {
    describe.apply(app.pond);
    core.call("log");
    give("log");
    core.lend(state.bytes, (at, count) => core.must("log_read", state.name, at, count));
    state.info = Object.assign(core.read("log_info", core.call("log_info")), { ignored: core.say("log_ignored") });
    give("leak");
    const r = core.read("leak", core.must("log_fit", state.name));
    for (const name of Object.keys(r)) if (/_(mm|mm_d|m3_d|m3_d_m|factor)$/.test(name) && name !== "resolvable_mm_d" && name !== "logged_mm") r[name] = estimate(r[name]);
    const calibrated = core.call("log_calibrated"), held = r.readings >= 6 && r.used >= 6 ? core.call("log_holdout") : 0;
    const rules = [];
    for (let i = 0; i < core.call("rules"); i++) if (core.call("log_rule_days", i)) rules.push({ title: core.say("rule_title", i), days: core.call("log_rule_days", i) });
    return {
      r, info: state.info, pond: core.read("pond", core.call("pond")), facts: core.read("facts", core.call("facts")),
      matters: state.options.leak.matters === undefined ? INCH() / 8 * 1000 : state.options.leak.matters,
      intervals: intervals(), points: core.readAll("point", core.call("log_points"), core.call("log_count")),
      weeks: state.info.meters < 2 ? [] : weeks(core.call("log_interval_count")),
      calibrated: calibrated ? core.read("pond", calibrated) : null, holdout: held ? core.read("holdout", held) : null,
      method: core.say("method_text", core.call("log_method"), 1), days: core.call("log_days"), rules, options: state.options.leak,
    };
  }

  function now() {
    const error = document.getElementById("log-error"), results = document.getElementById("log-results");
    const found = document.getElementById("log-found");
    error.hidden = true;
    state.error = "";
    found.textContent = state.name;
    if (!state.bytes) { results.innerHTML = logAnswers.empty(); return; }
    try {
      if (!weather.state.read) throw new Mistake("the log needs the weather of its days: open a weather file under Water");
      state.result = fit();
      results.innerHTML = logAnswers.render(state.result);
      found.textContent = `${state.name}: ${core.call("log_count")} readings.`;
      results.classList.remove("stale");
    } catch (e) {
      if (!(e instanceof Mistake)) throw e;
      error.textContent = state.error = e.message;
      error.hidden = false;
      if (state.result) results.classList.add("stale");
      else results.innerHTML = logAnswers.empty();
    }
  }

  const refresh = () => { if (state.bytes) now(); };
  const html = () => (state.bytes && !state.error ? logAnswers.render(state.result) : "");

  async function take(file) {
    open(file.name, new Uint8Array(await file.arrayBuffer()));
  }

  document.getElementById("choose-log").addEventListener("click", () => document.getElementById("log-file").click());
  document.getElementById("log-file").addEventListener("change", (e) => { if (e.target.files[0]) take(e.target.files[0]); e.target.value = ""; });
  document.getElementById("sample-log").addEventListener("click", openSample);

  return { build, now, take, refresh, html, state };
})();

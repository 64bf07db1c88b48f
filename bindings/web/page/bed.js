// SPDX-License-Identifier: MIT
// The designer's bed: sliders and entries. The plan begins with what the
// description says, and is a draft of its own until it is written into the pond.

const bed = (() => {
  const { el } = form;
  const { NONE, DESCRIBED, layers } = sizing;
  // Values are SI; 'at' is the field of the description. Sliders run over the
  // logarithm where 'log' is set.
  const SLIDERS = [
    { name: "flow", at: ["bed", "flow"], words: "Flow through the bed", lo: 5e-5, hi: 0.012, log: true, start: 0.0019, show: (v) => units.show("flow", v) },
    { name: "loading", at: ["bed", "loading"], words: "Surface loading", what: "flow over plan area: the size hangs on it", lo: 0.1, hi: 200, log: true, start: 30, find: true, show: (v) => `${units.number(v, v < 10 ? 2 : 0)} m/d = ${units.cell("loading", v)} ${units.unit("loading")}` },
    { name: "depth", at: ["bed", "depth"], words: "Depth of wet gravel", lo: 0.15, hi: 1.5, start: 0.6, stone: true, show: (v) => units.show("layer", v) },
    { name: "diameter", at: ["bed", "diameter"], words: "Size of the stone", lo: 0.003, hi: 0.06, log: true, start: 0.016, stone: true, show: (v) => units.show("stone", v) },
    { name: "porosity", at: ["bed", "porosity"], words: "Voids between the stones", lo: 0.28, hi: 0.5, start: 0.38, stone: true, show: (v) => `${units.number(v * 100, 0)} %` },
    { name: "clogging", at: ["bed", "clogging"], words: "Clogging to plan for", what: "head lost when due for cleaning, over clean", lo: 1, hi: 100, log: true, start: 10, show: (v) => units.number(v, 0) + " times" },
    { name: "temp", at: ["water", "temp"], words: "Temperature of the water", lo: 2, hi: 32, start: 20, show: (v) => (units.system === "us" ? `${units.number(v * 1.8 + 32, 0)} °F` : `${units.number(v, 0)} °C`) },
    { name: "feed", at: ["fish", "feed"], words: "Fish feed a day", what: "none: sized by loading alone", lo: 0, hi: 0.4, start: 0, show: (v) => (v < 1e-3 ? "none" : units.system === "us" ? `${units.number(v / units.factor("lb") * 16, 1)} oz` : `${units.number(v * 1000, 0)} g`) },
    { name: "ammonia", at: ["treatment", "ammonia"], words: "Ammonia wanted in the pond", what: "as nitrogen, when steady", lo: 0.05, hi: 2, log: true, start: 0.5, fish: true, show: (v) => `${units.number(v, 2)} mg/L` },
  ];
  const NUMBERS = [
    { name: "cover", at: ["bed", "cover"], words: "Dry stone over the water", unit: "m", asked: "level", start: 0.05, blank: () => fields.row("bed", "cover").default },
    { name: "spare_head", at: ["bed", "spare_head"], words: "Head to spare", what: "what the pump has left; blank: the bed's drop, if described", unit: "m", asked: "level", blank: () => (app.pond.bed || {}).drop },
    { name: "surface_share", at: ["bed", "surface_share"], words: "Share of the pond's surface wanted", what: "0.2 is 20 %", unit: "-" },
    { name: "volume_share", at: ["bed", "volume_share"], words: "Share of its volume wanted", what: "stone and all", unit: "-" },
    { name: "max_area", words: "Largest that fits", what: "for this page only; blank: not judged", unit: "m2", noYard: true },
  ];
  const state = { values: {}, rate: -1, direction: "upflow", judge: false };

  // What the description says, else what this page begins with.
  function load() {
    const d = app.pond, given = (at) => (at && d[at[0]] ? d[at[0]][at[1]] : undefined), area = core.read("pond", core.call("pond")).bed_area;
    for (const f of SLIDERS.concat(NUMBERS)) {
      const v = given(f.at);
      state.values[f.name] = v === undefined ? f.start : v;
    }
    // the bed's share as pump and pipes give it, or all that is pumped
    const through = core.call("bed_flow"), pumped = core.read("pond", core.call("pond")).flow;
    if (given(["bed", "flow"]) === undefined && (through > 0 || pumped > 0)) state.values.flow = through > 0 ? through : pumped;
    if (given(["fish", "feed"]) === undefined && given(["fish", "mass"]) > 0) state.values.feed = sizing.feedOf(d.fish, state.values.temp);
    if (d.bed && given(["bed", "cover"]) === undefined) state.values.cover = undefined;
    state.direction = given(["bed", "direction"]) || "upflow";
    const rate = sizing.rates().find((r) => r.name === given(["treatment", "rate"]));
    state.rate = rate ? rate.i : given(["treatment", "k"]) > 0 ? DESCRIBED : NONE;
    state.judge = area > 0;
  }

  // The plan becomes part of the description; the ledger then counts the bed.
  function write(check) {
    const d = app.pond, v = state.values, layers = d.bed && d.bed.layers;
    const put = (section, name, x) => {
      if (x === undefined || Number.isNaN(x)) return;
      d[section] = d[section] || {};
      d[section][name] = x;
    };
    for (const f of SLIDERS) {
      if (f.stone && layers || f.name === "feed" || f.fish) continue;
      put(f.at[0], f.at[1], v[f.name]);
    }
    for (const n of NUMBERS) if (n.at) put(n.at[0], n.at[1], v[n.name]);
    if (v.feed >= 1e-3) {
      put("fish", "feed", v.feed);
      put("treatment", "ammonia", v.ammonia);
      if (state.rate >= 0) {
        delete (d.treatment || {}).k;
        put("treatment", "rate", core.read("rate", core.call("rate", state.rate)).name);
      }
    }
    put("bed", "direction", state.direction);
    delete d.bed.length;
    delete d.bed.width;
    put("bed", "area", check.area);
  }

  const STEPS = 1000;
  const toStep = (s, v) => Math.round(STEPS * (s.log ? Math.log(v / s.lo) / Math.log(s.hi / s.lo) : (v - s.lo) / (s.hi - s.lo)));
  const fromStep = (s, n) => (s.log ? s.lo * Math.pow(s.hi / s.lo, n / STEPS) : s.lo + (s.hi - s.lo) * n / STEPS);

  const hidden = (s) => Boolean((s.fish && !(state.values.feed >= 1e-3)) || (s.stone && layers()) || (s.find && state.judge) || (s.noYard && app.pond.yard));

  function slider(s) {
    const id = "b-" + s.name, out = el("output", { id: id + "-out", for: id });
    const input = el("input", { type: "range", id, min: 0, max: STEPS, step: 1 });
    const show = () => {
      out.textContent = s.show(state.values[s.name]);
      input.setAttribute("aria-valuetext", out.textContent);
    };
    input.value = toStep(s, state.values[s.name]);
    input.addEventListener("input", () => {
      state.values[s.name] = fromStep(s, Number(input.value));
      show();
      update();
    });
    show();
    return el("div", { class: "slider", hidden: hidden(s), "data-slider": s.name },
      el("div", { class: "top" }, el("label", { for: id }, s.words), out), s.what ? el("p", { class: "what" }, s.what) : null, input);
  }

  // Size the bed, or judge the one that the description has.
  function question() {
    const area = core.read("pond", core.call("pond")).bed_area;
    if (!(area > 0)) return null;
    const pick = el("select", { id: "b-question", onchange: () => {
      state.judge = pick.value === "judge";
      if (!state.judge && state.check) state.values.loading = Math.min(200, Math.max(0.1, state.check.loading));
      build();
      update();
    } },
      el("option", { value: "find" }, "how large must it be?"), el("option", { value: "judge" }, `does ${units.show("area", area)} do?`));
    pick.value = state.judge ? "judge" : "find";
    return form.line("b-question", "Question", "", pick);
  }

  function build() {
    const root = document.getElementById("bed-form"), v = state.values;
    const way = el("select", { id: "b-direction", onchange: () => { state.direction = way.value; update(); } },
      el("option", { value: "upflow" }, "up through the gravel"), el("option", { value: "horizontal" }, "side to side"));
    way.value = state.direction;
    const rate = el("select", { id: "b-rate", onchange: () => { state.rate = Number(rate.value); update(); } },
      el("option", { value: String(NONE) }, "none taken"), (app.pond.treatment || {}).k > 0 ? el("option", { value: String(DESCRIBED) }, `as described, ${units.number(app.pond.treatment.k, 0)} m/yr`) : "", ...sizing.rates().map((r) => el("option", { value: String(r.i) }, `${r.name}, ${units.number(r.k_m_yr, 0)} m/yr`)));
    rate.value = String(state.rate);
    const rateLine = form.line("b-rate", "Removal rate of ammonia", "published, from beds far slower than a garden's", rate);
    rateLine.dataset.slider = "ammonia";
    rateLine.hidden = hidden({ fish: true });
    root.replaceChildren(...[
      question(), form.line("b-direction", "Way of the water", "", way), ...SLIDERS.map(slider), rateLine,
      layers() ? el("p", { class: "note" }, `The stone is the description's ${layers().length} layers.`) : null,
      ...NUMBERS.filter((n) => !hidden(n)).map((n) => form.numberLine("b-" + n.name, n.words, n.what, units.asked(n.asked || "size." + n.name, n.unit), () => v[n.name],
        (x) => { v[n.name] = x; update(); }, n.blank ? units.edit(n.blank(), units.asked(n.asked, n.unit)) : "")),
      yard.build(() => { build(); update(); }, update),
      el("p", {}, el("button", { type: "button", id: "b-write", onclick: () => { write(state.check); shown = null; app.changed(); open(); } }, "Write this plan into the pond")),
      el("p", { class: "hint" }, "Its area and stone then count in the water ledger, and are saved with the pond."),
    ].filter(Boolean));
  }

  let asked = 0;

  // One redraw a frame, however fast the slider moves.
  function update() {
    if (asked) return;
    asked = requestAnimationFrame(() => { asked = 0; now(); });
  }

  function now() {
    const error = document.getElementById("bed-error"), results = document.getElementById("bed-results"), begun = performance.now();
    for (const box of document.querySelectorAll("#bed-form [data-slider]")) box.hidden = hidden(SLIDERS.find((s) => s.name === box.dataset.slider));
    try {
      describe.apply(app.pond);
      const facts = core.read("facts", core.call("facts"));
      document.getElementById("bed-pond").textContent = `For ${app.pond.name || "the pond"} as described under Water: ${units.show("area", facts.lip_area)}, ${units.show("volume", facts.lip_volume)}.`;
      state.room = sizing.roomFor(state);
      const sized = sizing.solve(state, facts, state.room);
      state.check = core.read("check", sized.bed);
      state.map = sizing.tradeoff(state.check, state.room);
      state.stack = sizing.stackOf(state.check.area);
      state.answers = { sized, stack: state.stack, check: state.check, room: state.room, map: state.map, judge: state.judge };
      const { head, body } = bedAnswers.html(state.answers);
      document.getElementById("bed-headline").innerHTML = head;
      results.innerHTML = body;
      error.hidden = true;
      results.classList.remove("stale");
    } catch (e) {
      if (!(e instanceof Mistake)) throw e;
      state.answers = null;
      error.textContent = e.message;
      error.hidden = false;
      results.classList.add("stale");
    }
    app.timing.bed = performance.now() - begun;
  }

  // A click on the map takes that area and depth.
  function pick(event) {
    const svg = event.target.closest("#tradeoff svg"), map = state.map;
    if (!svg || state.judge) return;
    const place = charts.placeOf(svg, event, map);
    if (!place) return;
    state.values.loading = map.cells[place.i * map.depths.length + place.k].loading;
    if (!layers()) state.values.depth = map.depths[place.k];
    build();
    update();
  }

  let shown = null;

  function open() {
    try {
      describe.apply(app.pond);
      if (shown !== app.pond) load();
      shown = app.pond;
      build();
    } catch (e) {
      if (!(e instanceof Mistake)) throw e;
    }
    now();
  }

  document.getElementById("bed-results").addEventListener("click", pick);

  // For a report: the plan that was looked at, on the description as it is now.
  function refresh() {
    if (shown === app.pond) now();
    else document.getElementById("bed-error").hidden = true;
  }

  function html() {
    if (!state.answers || shown !== app.pond) return "";
    const { head, body } = bedAnswers.html(state.answers);
    return head + body;
  }

  return { open, now, refresh, html, state };
})();

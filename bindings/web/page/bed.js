// The designer's bed: sliders, every rule side by side, and a map of trade-offs.

const bed = (() => {
  const { el } = form;
  // Sliders run over the logarithm where 'log' is set. Values are SI.
  const SLIDERS = [
    { name: "flow", words: "Flow through the bed", lo: 5e-5, hi: 0.012, log: true, start: 1800 * 1.0515e-6, show: (v) => units.show("flow", v) },
    { name: "loading", words: "Surface loading", what: "flow over plan area: what the size hangs on", lo: 0.1, hi: 200, log: true, start: 30, show: (v) => `${units.number(v, v < 10 ? 2 : 0)} m/d, ${units.cell("loading", v)} ${units.unit("loading")}` },
    { name: "depth", words: "Depth of wet gravel", lo: 0.15, hi: 1.5, start: 0.6, show: (v) => units.show("layer", v) },
    { name: "diameter", words: "Size of the stone", lo: 0.003, hi: 0.06, log: true, start: 0.016, show: (v) => units.show("stone", v) },
    { name: "porosity", words: "Voids between the stones", lo: 0.28, hi: 0.5, start: 0.38, show: (v) => `${units.number(v * 100, 0)} %` },
    { name: "clogging", words: "Clogging to plan for", what: "head loss is so many times the clean one", lo: 1, hi: 100, log: true, start: 10, show: (v) => units.number(v, 0) + " times" },
    { name: "temp", words: "Temperature of the water", lo: 2, hi: 32, start: 20, show: (v) => (units.system === "us" ? `${units.number(v * 1.8 + 32, 0)} °F` : `${units.number(v, 0)} °C`) },
    { name: "feed_g", words: "Fish feed a day", what: "none: the bed is sized by loading alone", lo: 0, hi: 400, start: 0, show: (v) => (v < 1 ? "none" : units.system === "us" ? `${units.number(v / 28.349523125, 1)} oz` : `${units.number(v, 0)} g`) },
    { name: "pond_target", words: "Ammonia wanted in the pond", what: "as nitrogen, when steady", lo: 0.05, hi: 2, log: true, start: 0.5, fish: true, show: (v) => `${units.number(v, 2)} mg/L` },
  ];
  const NUMBERS = [
    { name: "max_area", words: "Largest that fits", unit: "m2" },
    { name: "length", words: "Longest way that fits", what: "from the lip to the far side", unit: "m" },
    { name: "head", words: "Head to spare", what: "bed lip over pond level", unit: "m" },
    { name: "freeboard", words: "Gravel over the bed's lip", unit: "m" },
  ];
  const state = { values: {}, rate: -1, direction: "upflow" };
  for (const s of SLIDERS) state.values[s.name] = s.start;

  const STEPS = 1000;
  const toStep = (s, v) => Math.round(STEPS * (s.log ? Math.log(v / s.lo) / Math.log(s.hi / s.lo) : (v - s.lo) / (s.hi - s.lo)));
  const fromStep = (s, n) => (s.log ? s.lo * Math.pow(s.hi / s.lo, n / STEPS) : s.lo + (s.hi - s.lo) * n / STEPS);

  function rates() {
    const list = [];
    for (let i = 0, at; (at = core.call("rate", i)); i++) list.push(Object.assign({ i }, core.read("rate", at)));
    return list.filter((r) => r.parameter === "ammonia" && !Number.isNaN(r.k_m_yr));
  }

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
    return el("div", { class: "slider", hidden: Boolean(s.fish) && !(state.values.feed_g >= 1), "data-fish": s.fish ? "1" : undefined },
      el("div", { class: "top" }, el("label", { for: id }, s.words, s.what ? el("span", { class: "what hint" }, " " + s.what) : null), out), input);
  }

  function build() {
    const root = document.getElementById("bed-form");
    const way = el("select", { id: "b-direction", onchange: () => { state.direction = way.value; update(); } },
      el("option", { value: "upflow" }, "up through the gravel"), el("option", { value: "horizontal" }, "from one side to the other"));
    way.value = state.direction;
    const known = rates();
    const rate = el("select", { id: "b-rate", onchange: () => { state.rate = Number(rate.value); update(); } },
      el("option", { value: "-1" }, "none: ammonia is not reckoned"),
      ...known.map((r) => el("option", { value: String(r.i) }, `${r.bed}: ${units.number(r.k_m_yr, 0)} m/yr`)));
    rate.value = String(state.rate);
    const fish = el("div", { class: "field", hidden: !(state.values.feed_g >= 1), "data-fish": "1" }, el("label", { for: "b-rate" }, "Removal rate of ammonia", el("span", { class: "what" }, "published, most from far slower beds")), el("span", { class: "entry" }, rate));
    root.replaceChildren(
      form.line("b-direction", "Way of the water", "", way),
      ...SLIDERS.map(slider), fish,
      ...NUMBERS.map((n) => form.numberLine("b-" + n.name, n.words, n.what || "blank: not judged", units.asked("size." + n.name, n.unit), () => state.values[n.name],
        (v) => { state.values[n.name] = v; update(); })));
  }

  // Hands the plan to the library. 'area': judge that one instead of sizing.
  function set(facts) {
    const v = state.values;
    core.call("size_begin", v.temp);
    const put = (name, x) => { if (x !== undefined && !Number.isNaN(x)) core.must("set", "size", name, 0, x); };
    for (const name of ["flow", "loading", "depth", "diameter", "porosity", "clogging", "max_area", "length", "head", "freeboard"]) put(name, v[name]);
    put("direction", state.direction === "upflow" ? 0 : 1);
    put("pond_area", facts.lip_area);
    put("pond_volume", facts.lip_volume);
    if (v.feed_g >= 1) {
      put("feed_g", v.feed_g);
      if (state.rate >= 0) {
        core.must("size_rate", state.rate);
        put("pond_target", v.pond_target);
      }
    }
  }

  function flagsOf(bits) {
    const refusals = core.call("refusals") >>> 0, list = [];
    for (let b = 0; b < 32; b++) {
      const text = bits & (1 << b) ? core.say("flag_text", b) : null;
      if (text) list.push({ text, refused: Boolean(refusals & (1 << b)) });
    }
    return list;
  }

  function space(lo, hi, n) {
    return Array.from({ length: n }, (_, i) => lo * Math.pow(hi / lo, i / (n - 1)));
  }

  // Every area x depth at this flow, as the library judges them.
  function tradeoff(check) {
    const areas = space(check.area / 5, check.area * 5, 41), depths = Array.from({ length: 21 }, (_, i) => 0.15 + 1.35 * i / 20);
    const refusals = core.call("refusals") >>> 0, doubt = 1 << 14 | 1 << 16 | 1 << 20 | 1;
    const cells = core.lend(areas.concat(depths), (at) => {
      const p = core.must("tradeoff", at, areas.length, at + 8 * areas.length, depths.length, check.flow);
      const c = core.columns("check", p, areas.length * depths.length);
      return Array.from(c.flags, (f) => ({ flags: f, refused: (f & refusals) !== 0, doubtful: (f & doubt) !== 0 }));
    });
    const inDepth = (check.depth - 0.15) / 1.35 * 20 / 21 + 0.5 / 21;
    return { areas, depths, cells, here: { x: 0.5, y: Math.max(0, Math.min(1, inDepth)) } };
  }

  function rulesTable(sized) {
    const rows = [];
    sized.areas.forEach((area, i) => {
      if (Number.isNaN(area)) return;
      rows.push([`${i === sized.governs ? "<strong>" : ""}${esc(core.say("size_rule", i, 1))}${i === sized.governs ? "</strong>, governs" : ""}`, units.cell("area", area), esc(core.say("size_rule", i, 2))]);
    });
    return water.table("Area of the bed by every rule that the plan allows", ["Rule", `Area<br>${units.unit("area")}`, "Standing"], rows);
  }

  function regimes() {
    const list = [];
    for (let i = 0, at; (at = core.call("regime", i)); i++) list.push(core.read("regime", at));
    return list;
  }

  function regimeTable(sized) {
    return water.table("What each practice would ask for at this flow", ["Practice", `Loading<br>m/d`, `Area<br>${units.unit("area")}`, "Standing"],
      regimes().map((r, i) => [esc(r.meaning), `${units.number(r.low, 1)} to ${units.number(r.high, 1)}`, `${units.cell("area", sized.regime_low[i])} to ${units.cell("area", sized.regime_high[i])}`, esc(core.say("evidence", r.evidence))]));
  }

  function render(sized) {
    const c = core.read("check", sized.bed), flags = flagsOf(c.flags), bad = flags.filter((f) => f.refused);
    const map = tradeoff(c), fits = map.cells.filter((x) => !x.refused).length;
    document.getElementById("bed-headline").innerHTML = `<p>A bed of <strong>${esc(units.show("area", c.area))}</strong>, ${esc(units.show("layer", c.depth))} deep, ` +
      `holds ${esc(units.show("rock", c.volume))} of stone and voids (<strong>${esc(units.show("mass", c.mass))}</strong> dry)${bad.length ? ", <span class=\"no\">and does not do its job as planned</span>" : ""}.</p>`;
    const list = [
      ["Water in the bed", units.show("volume", c.water)], ["Time in the bed", `${units.number(c.residence / 60, 1)} min`],
      ["Head lost, clean", units.show("depth", c.clean)], ["Head lost, clogged", units.show("depth", c.clogged)],
      ["Of the pond's surface", `${units.number(c.surface_share * 100, 0)} %`], ["Of the pond's volume, stone and all", `${units.number(c.volume_share * 100, 0)} %`],
      ["Pond volumes an hour", units.number(c.turnover, 2)], ["Times the loading of a slow sewage bed", units.number(c.sewage_factor, 0)],
    ];
    if (!Number.isNaN(c.pond)) list.push(["Ammonia in the pond, when steady", `${units.number(c.pond, 2)} mg/L`]);
    if (!Number.isNaN(c.oxygen_out)) list.push(["Oxygen at the outlet", `${units.number(c.oxygen_out, 1)} mg/L`]);
    document.getElementById("bed-results").innerHTML = `<dl class="figures">${list.map(([dt, dd]) => `<div><dt>${esc(dt)}</dt><dd>${esc(dd)}</dd></div>`).join("")}</dl>
      ${flags.length ? `<section><h3>What the figures do not say by themselves</h3><ul>${flags.map((f) => `<li${f.refused ? ' class="no"' : ""}>${f.refused ? "Refused: " : ""}${esc(f.text)}.</li>`).join("")}</ul></section>` : ""}
      <section><h3>Where this loading stands</h3><figure>${charts.loading(regimes(), c.loading, `Surface loading of this bed, ${units.number(c.loading, 2)} m/d, among the usual ranges; the table below has them`)}</figure>${regimeTable(sized)}</section>
      <section><h3>The area, by each rule</h3>${rulesTable(sized)}</section>
      <section><h3>Area against depth</h3><figure id="tradeoff">${charts.tradeoff(map, `Map of beds by area and depth at this flow: ${fits} of ${map.cells.length} do their job; this bed is in the middle`)}
      <ul class="key"><li><i style="background:var(--water)"></i>does its job</li><li><i style="background:var(--water-soft)"></i>does it, with a doubt (loading, load or rule)</li><li><i style="background:var(--warn-soft)"></i>refused</li></ul>
      <figcaption>Each cell is a bed of that area and depth at the same flow, judged by the same checks. The ring is this bed.</figcaption></figure></section>
      <section><p class="note">Most removal rates come from beds fed a hundred times more slowly than a garden's. Rock is heavy and holes cave in: walls, footings and slopes are a matter of local codes and licensed practice.</p></section>`;
  }

  let asked = 0;

  // One redraw a frame, however fast the slider moves.
  function update() {
    if (asked) return;
    asked = requestAnimationFrame(() => { asked = 0; now(); });
  }

  function now() {
    const error = document.getElementById("bed-error"), results = document.getElementById("bed-results"), begun = performance.now();
    for (const box of document.querySelectorAll("#bed-form [data-fish]")) box.hidden = !(state.values.feed_g >= 1);
    try {
      describe.apply(app.pond);
      const facts = core.read("facts", core.call("facts"));
      document.getElementById("bed-pond").textContent = `For ${app.pond.name || "the pond"} as described under Water: ${units.show("area", facts.lip_area)}, ${units.show("volume", facts.lip_volume)}.`;
      set(facts);
      render(core.read("sized", core.must("size")));
      error.hidden = true;
      results.classList.remove("stale");
    } catch (e) {
      if (!(e instanceof Mistake)) throw e;
      error.textContent = e.message;
      error.hidden = false;
      results.classList.add("stale");
    }
    app.timing.bed = performance.now() - begun;
  }

  // Begins with the pump's flow, where one is described.
  function open() {
    if (!state.touched && app.pond.pump && app.pond.pump.flow) state.values.flow = app.pond.pump.flow;
    state.touched = true;
    build();
    now();
  }

  return { open, build, now, state };
})();

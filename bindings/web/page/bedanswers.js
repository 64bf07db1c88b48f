// SPDX-License-Identifier: MIT
// The designer's answers: one sized bed as words, pictures and tables.

const bedAnswers = (() => {
  function rulesTable(sized) {
    const rows = [];
    sized.areas.forEach((area, i) => {
      if (Number.isNaN(area)) return;
      rows.push([`${i === sized.governs ? "<strong>" : ""}${esc(core.say("size_rule", i, 1))}${i === sized.governs ? "</strong>, governs" : ""}`, units.cell("area", area), esc(core.say("size_rule", i, 2))]);
    });
    return water.table("Area of the bed by every rule that the plan allows", ["Rule", `Area<br>${units.unit("area")}`, "Standing"], rows);
  }

  function regimeTable(sized) {
    return water.table("What each class of loading would ask for at this flow; single beds reach farther, the program lists them", ["Practice", `Loading<br>m/d`, `Area<br>${units.unit("area")}`, "Standing"],
      sizing.regimes().map((r, i) => [esc(r.meaning), `${units.number(r.low, 1)} to ${units.number(r.high, 1)}`, `${units.cell("area", sized.regime_low[i])} to ${units.cell("area", sized.regime_high[i])}`, esc(core.say("evidence", r.evidence))]));
  }

  // sized and check as the library gives them, room and map as sizing does:
  // { head, body }
  function html({ sized, stack, check, room, map, judge }) {
    const c = check, stone = stack || c, flags = sizing.flagsOf(c.flags), bad = flags.filter((f) => f.refused);
    const fits = map.cells.filter((x) => !x.refused).length;
    const head = `<p>A bed of <strong>${esc(units.show("area", c.area))}</strong>, ${esc(units.show("layer", c.depth))} deep under water${stack ? `, ${esc(units.show("layer", stack.depth))} with its dry top` : ""}, ` +
      `takes ${esc(units.show("rock", stone.volume))} of stone and voids (<strong>${esc(units.show("mass", stone.mass))}</strong> dry)${bad.length ? ", <span class=\"no\">and does not do its job as planned</span>" : ""}.</p>`;
    const list = [
      ["Water in the bed", units.show("volume", c.water)], ["Time in the bed", `${units.number(c.residence / 60, 1)} min`],
      ["Head lost, clean", units.show("depth", c.clean)], ["Head lost, clogged", units.show("depth", c.clogged)],
      ["Of the pond's surface", `${units.number(c.surface_share * 100, 0)} %`], ["Of the pond's volume, stone and all", `${units.number(c.volume_share * 100, 0)} %`],
      ["Pond volumes an hour", units.number(c.turnover, 2)], ["Times the loading of a slow sewage bed", units.number(c.sewage_factor, 0)],
    ];
    if (!Number.isNaN(c.pond)) list.push(["Ammonia in the pond, when steady", `${units.number(c.pond, 2)} mg/L`]);
    if (!Number.isNaN(c.oxygen_out)) list.push(["Oxygen at the outlet", `${units.number(c.oxygen_out, 1)} mg/L`]);
    const body = `<dl class="figures">${list.map(([dt, dd]) => `<div><dt>${esc(dt)}</dt><dd>${esc(dd)}</dd></div>`).join("")}</dl>
      ${flags.length ? `<section><h3>What the figures do not say by themselves</h3><ul>${flags.map((f) => `<li${f.refused ? ' class="no"' : ""}>${f.refused ? "Refused: " : ""}${esc(f.text)}.</li>`).join("")}</ul></section>` : ""}
      ${room ? yard.answer(room, c, judge) : ""}
      <section><h3>Where this loading stands</h3><figure>${charts.loading(sizing.regimes(), c.loading, `Surface loading of this bed, ${units.number(c.loading, 2)} m/d, among the usual ranges; the table below has them`)}</figure>${regimeTable(sized)}</section>
      <section><h3>The area, by each rule</h3>${rulesTable(sized)}</section>
      <section><h3>Area against depth</h3><figure id="tradeoff">${charts.tradeoff(map, `Map of beds by area and depth at this flow: ${fits} of ${map.cells.length} do their job; this bed is in the middle`)}
      <ul class="key"><li><i style="background:var(--water-mid)"></i>does its job</li><li><i style="background:var(--water-soft)"></i>does it, with a doubt (loading, load or rule)</li><li><i style="background:var(--warn-soft)"></i>refused</li></ul>
      <figcaption>Each cell is a bed of that area and depth at the same flow, judged by the same checks; lines join beds of the same weight of stone under water. The ring is this bed. Click to try another.</figcaption></figure></section>
      <section><p class="note">Most removal rates come from beds fed a hundred times more slowly than a garden's. Rock is heavy and holes cave in: walls, footings and slopes are a matter of local codes and licensed practice.</p></section>`;
    return { head, body };
  }

  return { html };
})();

// SPDX-License-Identifier: MIT
// The pond in section, drawn from the library's own areas.

const esc = (s) => String(s).replace(/[&<>"]/g, (c) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" }[c]));

const sketch = (() => {
  const LEFT = 6, WIDTH = 190, TOP = 44, DEEP = 122;

  // Labels that would stand on each other move apart, downward.
  function spread(marks, gap) {
    const list = marks.slice().sort((a, b) => a.y - b.y);
    list.forEach((m, i) => { m.at = i && m.y < list[i - 1].at + gap ? list[i - 1].at + gap : m.y; });
    return list;
  }

  const near = (m) => `${Number(units.value("depth", m).toPrecision(3))} ${units.unit("depth")}`;

  function gravel(x, y, width, height) {
    let out = "";
    for (let i = 0; i < 52; i++) {		// spread evenly by the golden ratio
      const gx = x + 4 + (i * 0.61803 % 1) * (width - 8), gy = y + 6 + (i + 0.5) / 52 * (height - 9);
      out += `<circle cx="${gx.toFixed(1)}" cy="${gy.toFixed(1)}" r="${2 + i % 3 * 0.5}"/>`;
    }
    return `<g style="fill:none;stroke:var(--faint);stroke-width:.8">${out}</g>`;
  }

  function bed(area) {
    const x = LEFT + WIDTH + 24, y = TOP - 24, width = 66, height = 48;
    const reeds = [10, 22, 33, 45, 56].map((dx, i) =>
      `<path d="M${x + dx} ${y + 3} q${i % 2 ? 3 : -3} -10 ${i % 2 ? 6 : -5} -19"/>`).join("");
    return `${gravel(x, y, width, height)}
      <path d="M${x} ${y} v${height} h${width} v${-height}" style="fill:none;stroke:var(--ink);stroke-width:1.3"/>
      <g style="fill:none;stroke:var(--plant);stroke-width:1.5">${reeds}</g>
      <path d="M${x} ${y + 4} q-15 2 -19 20" style="fill:none;stroke:var(--water);stroke-width:2"/>
      <text x="${x + width / 2}" y="${y + height + 14}" text-anchor="middle">bed ${esc(units.show("area", area))}</text>`;
  }

  function draw() {
    const top = core.call("basin_top"), facts = core.read("facts", core.call("facts")), pond = core.read("pond", core.call("pond"));
    const areaTop = core.call("basin_area", top), y = (level) => TOP + (1 - level / top) * DEEP;
    const half = (level) => Math.sqrt(core.call("basin_area", level) / areaTop) * WIDTH / 2;
    const middle = LEFT + WIDTH / 2, wall = [], water = Number.isNaN(pond.target) ? pond.lip : pond.target;
    for (let i = 0; i <= 60; i++) wall.push(top * (1 - i / 60));
    const side = (levels, sign) => levels.map((l) => `${(middle + sign * half(l)).toFixed(1)} ${y(l).toFixed(1)}`);
    const shape = (levels) => "M" + side(levels, -1).concat(side(levels, 1).reverse()).join("L");
    const marks = [["top edge", top], ["overflow", pond.lip], ["target", pond.target], ["top-up starts", pond.trigger],
      ["intake", pond.intake], ["floor", 0]].filter((m) => !Number.isNaN(m[1])).map((m) => ({ text: m[0], y: y(m[1]), level: m[1] }));
    const labelX = LEFT + WIDTH + 24;
    const hasBed = pond.bed_area > 0;
    const labels = spread(marks, 13);
    const shift = hasBed ? Math.max(0, TOP + 52 - labels[0].at) : 0;
    const lines = labels.map((m) => {
      const at = m.at + shift;
      return `<path d="M${(middle + half(m.level)).toFixed(1)} ${m.y.toFixed(1)}L${labelX - 4} ${at.toFixed(1)}" style="stroke:var(--rule);fill:none"/>
        <text x="${labelX}" y="${(at + 4).toFixed(1)}">${m.text}${m.level === top ? "" : `, ${esc(near(top - m.level))} down`}</text>`;
    }).join("");
    const height = Math.max(TOP + DEEP, labels[labels.length - 1].at + shift) + 14;
    const words = `Section of the pond: ${units.show("length", top)} deep, ${units.show("volume", facts.lip_volume)} and ` +
      `${units.show("area", facts.lip_area)} at the overflow` + (hasBed ? `, planted bed of ${units.show("area", pond.bed_area)}` : "");
    return `<svg class="chart" viewBox="0 0 400 ${height.toFixed(0)}" role="img" aria-label="${esc(words)}">
      <path d="${shape(wall.filter((l) => l <= water))}" style="fill:var(--water-soft)"/>
      <path d="M${middle - half(water)} ${y(water)}H${middle + half(water)}" style="stroke:var(--water);stroke-width:1.6"/>
      <path d="M${side(wall, -1).join("L")}L${side(wall.slice().reverse(), 1).join("L")}" style="fill:none;stroke:var(--ink);stroke-width:1.6;stroke-linejoin:round"/>
      ${hasBed ? bed(pond.bed_area) : ""}${lines}</svg>
      <figcaption>${esc(units.show("volume", facts.lip_volume))} and ${esc(units.show("area", facts.lip_area))} at the overflow; one
      ${units.system === "us" ? "inch" : "centimetre"} at the ${Number.isNaN(pond.target) ? "overflow" : "target"} is
      ${esc(units.show("volume", core.call("basin_area", water) * units.factor(units.system === "us" ? "inch" : "cm")))}.
      The section is not to scale sideways.</figcaption>`;
  }

  let shown = "";

  function show(figure) {
    const now = draw();
    if (now !== shown) figure.innerHTML = shown = now;
  }

  return { show };
})();

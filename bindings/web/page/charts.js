// SPDX-License-Identifier: MIT
// Pictures of a job. SVG where there are few marks, uPlot where there are days.

const charts = (() => {
  const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

  // Width of the leaf, measured once: asking again amid changes would make the
  // browser lay out the page for the answer.
  let known = 0;
  function room() {
    if (known) return known;
    const leaf = Array.from(document.querySelectorAll(".right")).find((l) => l.clientWidth > 0);
    if (!leaf) return 800;
    const style = getComputedStyle(leaf);
    known = leaf.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
    return known;
  }

  // Drawn for the room that there is, so that letters keep their size.
  const width = () => (document.documentElement.dataset.ink === "print" ? 800 : Math.max(300, Math.min(900, room())));

  // Round values from low to high, about 'count' of them.
  function ticks(low, high, count) {
    const rough = (high - low) / Math.max(1, count);
    if (!(rough > 0)) return [low];
    const power = Math.pow(10, Math.floor(Math.log10(rough)));
    const step = [1, 2, 5, 10].map((f) => f * power).find((s) => s >= rough) || 10 * power;
    const out = [];
    for (let i = Math.ceil(low / step - 1e-9); i <= Math.floor(high / step + 1e-9); i++) out.push(i * step);
    return out;
  }

  const short = (v) => (Math.abs(v) >= 1000 ? units.number(v, 0) : String(Number(v.toPrecision(3))));

  // Depths are drawn downwards, and read as they are.
  const depth = (v) => short(v === 0 ? 0 : -v);

  function axis(list, y, x0, x1, say = short) {
    return list.map((v) => `<path d="M${x0} ${y(v).toFixed(1)}H${x1}" style="stroke:var(--rule)"/>
      <text x="${x0 - 6}" y="${(y(v) + 4).toFixed(1)}" text-anchor="end">${say(v)}</text>`).join("");
  }

  // rows: { title, value, low, high, month } in the reader's units; a band
  // where low and high are given.
  function weeks(rows, unit, label) {
    const W = width(), H = 256, X = 52, Y = 24, B = 26;
    const most = Math.max(1e-9, ...rows.map((r) => Math.max(r.value, r.high || 0)));
    const steps = ticks(0, most, 4), top = Math.max(most, steps[steps.length - 1]);
    const y = (v) => H - B - v / top * (H - B - Y), step = (W - X - 6) / rows.length;
    let out = "", before = -1;
    rows.forEach((r, i) => {
      const x = X + i * step, w = Math.max(1, step * 0.62);
      if (r.high > 0) {
        out += `<rect x="${x.toFixed(1)}" y="${y(r.high).toFixed(1)}" width="${step.toFixed(2)}" height="${(y(r.low) - y(r.high)).toFixed(1)}" style="fill:var(--water-soft)"/>`;
      }
      out += `<rect x="${(x + (step - w) / 2).toFixed(1)}" y="${y(r.value).toFixed(1)}" width="${w.toFixed(1)}" height="${(H - B - y(r.value)).toFixed(1)}" style="fill:var(--water)"><title>${esc(r.title)}</title></rect>`;
      if (r.month !== before && (before !== -1 || r.monthStart)) {
        out += `<path d="M${x.toFixed(1)} ${H - B}v5" style="stroke:var(--faint)"/>`;
        if (step * 4.3 > 30 || r.month % (step * 4.3 > 14 ? 2 : 6) === 0) out += `<text x="${(x + 3).toFixed(1)}" y="${H - 8}">${MONTHS[r.month]}${r.month === 0 && rows.length > 60 ? " " + r.year : ""}</text>`;
      }
      before = r.month;
    });
    return `<svg class="chart" viewBox="0 0 ${W} ${H}" role="img" aria-label="${esc(label)}">
      ${axis(steps, y, X, W - 6)}${out}<path d="M${X} ${H - B}H${W - 6}" style="stroke:var(--ink)"/>
      <text x="2" y="11">${esc(unit)}</text></svg>`;
  }

  // What comes in above the line, what goes out below it, month by month.
  const PARTS = [
    ["in", "rain and runoff", "var(--rain)", (m) => m.rain + m.runoff],
    ["in", "top-up", "var(--water)", (m) => m.topup + m.tank],
    ["out", "open water", "var(--sun)", (m) => m.evaporation],
    ["out", "plants of the bed", "var(--plant)", (m) => m.bed],
    ["out", "stream, splash, seepage, use", "var(--margin)", (m) => m.stream + m.splash + m.seepage + m.withdrawal],
    ["out", "overflow", "var(--rule)", (m) => m.overflow],
  ];
  function balance(rows, names, label) {
    const W = width(), H = 320, X = 52, Y = 24, B = 22;
    const sum = (m, way) => PARTS.filter((p) => p[0] === way).reduce((a, p) => a + units.value("volume", p[3](m)), 0);
    const most = Math.max(1e-9, ...rows.map((m) => sum(m, "in"))), least = Math.max(1e-9, ...rows.map((m) => sum(m, "out")));
    const steps = ticks(-least, most, 6), y = (v) => Y + (most - v) / (most + least) * (H - Y - B);
    const step = (W - X - 6) / rows.length, w = step * 0.66;
    let out = "";
    rows.forEach((m, i) => {
      const x = X + i * step + (step - w) / 2, ends = { in: 0, out: 0 };
      for (const [way, name, fill, of] of PARTS) {
        const v = units.value("volume", of(m)) * (way === "in" ? 1 : -1), from = ends[way];
        ends[way] += v;
        if (Math.abs(v) < 1e-9) continue;
        const a = y(Math.max(from, ends[way])), b = y(Math.min(from, ends[way]));
        out += `<rect x="${x.toFixed(1)}" y="${a.toFixed(1)}" width="${w.toFixed(1)}" height="${(b - a).toFixed(1)}" style="fill:${fill}"><title>${esc(`${names[i]}, ${name}: ${units.show("volume", of(m))}`)}</title></rect>`;
      }
      if (step > 24) out += `<text x="${(x + w / 2).toFixed(1)}" y="${H - 6}" text-anchor="middle">${esc(names[i].slice(0, 3))}</text>`;
    });
    const key = PARTS.map((p) => `<li><i style="background:${p[2]}"></i>${p[1]}</li>`).join("");
    return `<svg class="chart" viewBox="0 0 ${W} ${H}" role="img" aria-label="${esc(label)}">
      ${axis(steps, y, X, W - 6)}${out}<path d="M${X} ${y(0)}H${W - 6}" style="stroke:var(--ink)"/>
      <text x="2" y="11">${esc(units.unit("volume"))}</text></svg><ul class="key" aria-hidden="true">${key}</ul>`;
  }

  // ---- level over time: uPlot ----------------------------------------------------

  let plot = null, shown = null;

  const ink = (name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

  function levels(job) {
    return [["overflow", job.pond.lip, "--ink"], ["target", job.pond.target, "--plant"], ["top-up starts", job.pond.trigger, "--sun"],
      ["intake", job.pond.intake, "--warn"]].filter((l) => !Number.isNaN(l[1]));
  }

  const below = (job, level) => -units.value("depth", job.pond.lip - level);

  // Horizontal lines of the levels that count, each with its name: beside the
  // picture where there is room, else in it.
  const BESIDE = 88;
  function drawLevels(u, job, aside) {
    const c = u.ctx, ratio = devicePixelRatio;
    c.save();
    c.textAlign = "left";
    c.font = `${12 * ratio}px ${getComputedStyle(document.body).fontFamily}`;
    let used = -1e9;
    for (const [name, level, color] of levels(job)) {
      const y = Math.round(u.valToPos(below(job, level), "y", true));
      if (y < u.bbox.top || y > u.bbox.top + u.bbox.height) continue;
      c.strokeStyle = c.fillStyle = ink(color);
      c.lineWidth = ratio;
      c.setLineDash([5 * ratio, 4 * ratio]);
      c.beginPath();
      c.moveTo(u.bbox.left, y);
      c.lineTo(u.bbox.left + u.bbox.width, y);
      c.stroke();
      const at = Math.max(aside ? y + 4 * ratio : y + 14 * ratio, used + 14 * ratio), left = u.bbox.left + (aside ? u.bbox.width + 5 * ratio : 6 * ratio);
      c.setLineDash([]);
      c.lineWidth = 4 * ratio;
      c.lineJoin = "round";
      c.strokeStyle = ink("--leaf");
      if (!aside) c.strokeText(name, left, at);
      c.fillText(name, left, at);
      used = at;
    }
    c.restore();
  }

  function level(el, job) {
    const d = job.days, x = Array.from(d.day, (day) => day * 86400), y = Array.from(d.level, (l) => below(job, l));
    const low = Math.min(...levels(job).map((l) => below(job, l[1])), y.reduce((a, b) => Math.min(a, b), 0));
    const axisStyle = { stroke: ink("--faint"), grid: { stroke: ink("--rule"), width: 1 }, ticks: { show: false }, font: `13px ${getComputedStyle(document.body).fontFamily}` };
    const kept = plot && shown.job.first === job.first && shown.job.last === job.last ? { min: plot.scales.x.min, max: plot.scales.x.max } : null;
    if (plot) plot.destroy();
    shown = { el, job };
    const wide = Math.max(260, document.documentElement.dataset.ink === "print" ? width() : room()), aside = wide >= 480;
    plot = new uPlot({
      width: wide, height: 270, padding: [null, aside ? BESIDE : null, null, null], tzDate: (ts) => uPlot.tzDate(new Date(ts * 1e3), "UTC"),
      cursor: { y: false, points: { size: 7 }, drag: { x: true, y: false } }, legend: { show: false },
      scales: { y: { range: [low * 1.08, -low * 0.05] } },
      axes: [axisStyle, Object.assign({ size: 52, values: (u, list) => list.map(depth) }, axisStyle)],
      series: [{}, { stroke: ink("--water"), width: 1.6, fill: ink("--water-soft"), fillTo: low * 1.08, points: { show: false } }],
      hooks: {
        draw: [(u) => drawLevels(u, job, aside)],
        setCursor: [(u) => {
          const i = u.cursor.idx, out = document.getElementById("level-at");
          if (out) out.textContent = i === null || i === undefined ? "" : `${ledger.dateText(d.day[i])}: ${units.show("depth", job.pond.lip - d.level[i])} under the overflow`;
        }],
      },
    }, [x, y], el);
    if (kept) plot.setScale("x", kept);
  }

  function forget() {
    if (plot) plot.destroy();
    plot = shown = null;
  }

  function again() {
    if (shown && shown.el.isConnected) level(shown.el, shown.job);
  }

  // Looks at part of the time: 'what' is in, out, back, on or all.
  function zoom(what) {
    if (!plot) return;
    const all = plot.data[0], first = all[0], last = all[all.length - 1];
    let { min, max } = plot.scales.x;
    const span = max - min, middle = (min + max) / 2;
    if (what === "all") [min, max] = [first, last];
    if (what === "in") [min, max] = [middle - span / 4, middle + span / 4];
    if (what === "out") [min, max] = [middle - span, middle + span];
    if (what === "back") [min, max] = [min - span / 2, max - span / 2];
    if (what === "on") [min, max] = [min + span / 2, max + span / 2];
    const width = Math.min(max - min, last - first);
    min = Math.max(first, Math.min(min, last - width));
    plot.setScale("x", { min, max: min + width });
  }

  // ---- the designer's map ---------------------------------------------------------

  const POWERS = [-3, -2, -1, 0, 1, 2, 3].map((p) => Math.pow(10, p));
  const MAP = { H: 330, X: 60, Y: 10, B: 44, R: 10 };

  // cells: depth fastest. Green where a bed of that area and depth does its job.
  function tradeoff(map, label) {
    const { H, X, Y, B, R } = MAP, W = width(), nx = map.areas.length, ny = map.depths.length;
    const w = (W - X - R) / nx, h = (H - B - Y) / ny, x = (i) => X + i * w, y = (k) => H - B - (k + 1) * h;
    let out = "";
    // runs of like cells along the depth as one rectangle
    const color = (c) => (c.refused ? "var(--warn-soft)" : c.doubtful ? "var(--water-soft)" : "var(--water-mid)");
    for (let i = 0; i < nx; i++) {
      for (let k = 0; k < ny;) {
        const fill = color(map.cells[i * ny + k]);
        let end = k + 1;
        while (end < ny && color(map.cells[i * ny + end]) === fill) end++;
        out += `<rect x="${x(i).toFixed(1)}" y="${y(end - 1).toFixed(1)}" width="${(w + 0.4).toFixed(1)}" height="${(h * (end - k) + 0.4).toFixed(1)}" style="fill:${fill}"/>`;
        k = end;
      }
    }
    // round values, each where it falls among the cells
    const [low, high] = [map.areas[0], map.areas[nx - 1]].map((v) => units.value("area", v)), [bottom, top] = [map.depths[0], map.depths[ny - 1]].map((v) => units.value("layer", v));
    const xs = POWERS.flatMap((p) => [p, 2 * p, 5 * p]).filter((v) => v >= low && v <= high)
      .map((v) => `<text x="${(x(Math.log(v / low) / Math.log(high / low) * (nx - 1)) + w / 2).toFixed(1)}" y="${H - B + 16}" text-anchor="middle">${short(v)}</text>`).join("");
    const ys = ticks(bottom, top, 6).map((v) => `<text x="${X - 6}" y="${(y((v - bottom) / (top - bottom) * (ny - 1)) + h / 2 + 4).toFixed(1)}" text-anchor="end">${short(v)}</text>`).join("");
    const hx = (X + map.here.x * (W - X - R)).toFixed(1), hy = (H - B - map.here.y * (H - B - Y)).toFixed(1);
    return `<svg class="chart" viewBox="0 0 ${W} ${H}" role="img" aria-label="${esc(label)}">${out}${weights(map, x, y, w, h)}${xs}${ys}
      <text x="${(W + X) / 2}" y="${H - 6}" text-anchor="middle">area of the bed, ${esc(units.unit("area"))}</text>
      <text x="2" y="${Y + 4}">depth,</text><text x="2" y="${Y + 19}">${esc(units.unit("layer"))}</text>
      <circle cx="${hx}" cy="${hy}" r="8" style="fill:none;stroke:var(--ink);stroke-width:2.5"/><circle cx="${hx}" cy="${hy}" r="2" class="ink"/></svg>`;
  }

  // Lines of the same weight of stone, drawn between the library's own cells.
  function weights(map, x, y, w, h) {
    const nx = map.areas.length, ny = map.depths.length, mass = (i, k) => units.value("mass", map.cells[i * ny + k].mass);
    const most = mass(nx - 1, ny - 1);
    if (!(most > 0)) return "";
    let out = "";
    for (const level of POWERS.flatMap((p) => [p, 2 * p, 5 * p]).filter((l) => l < most && l > most / 500)) {
      const points = [];
      for (let i = 0; i < nx; i++) {
        for (let k = 0; k + 1 < ny; k++) {
          const a = mass(i, k), b = mass(i, k + 1);
          if (!(a <= level && level < b)) continue;
          points.push([x(i) + w / 2, y(k) + h / 2 - (level - a) / (b - a) * h]);
        }
      }
      if (points.length < 3) continue;
      const [lx, ly] = points[Math.floor(points.length * 0.35)];
      out += `<path d="M${points.map((p) => `${p[0].toFixed(1)} ${p[1].toFixed(1)}`).join("L")}" style="fill:none;stroke:var(--faint);stroke-width:1"/>
        <text x="${Math.min(lx, width() - MAP.R - 58).toFixed(1)}" y="${Math.max(ly - 3, MAP.Y + 14).toFixed(1)}" class="ink halo">${Number(level.toPrecision(1))} ${units.unit("mass")}</text>`;
    }
    return out;
  }

  // Cell under the pointer, or null.
  function placeOf(svg, event, map) {
    const { H, X, Y, B, R } = MAP, W = svg.viewBox.baseVal.width, box = svg.getBoundingClientRect();
    const i = Math.floor(((event.clientX - box.left) / box.width * W - X) / (W - X - R) * map.areas.length);
    const k = Math.floor((H - B - (event.clientY - box.top) / box.height * H) / (H - B - Y) * map.depths.length);
    return i >= 0 && i < map.areas.length && k >= 0 && k < map.depths.length ? { i, k } : null;
  }

  // Text of an SVG, in two lines where one is too long.
  function lines(text, broken, x) {
    const at = broken ? text.indexOf(" ", text.length / 2) : -1;
    return at < 0 ? esc(text) : `${esc(text.slice(0, at))}<tspan x="${x.toFixed(1)}" dy="14">${esc(text.slice(at + 1))}</tspan>`;
  }

  // A logarithmic ruler of surface loading with the regimes beside it.
  function loading(regimes, at, label) {
    const W = width(), row = W < 560 ? 50 : 24, under = W < 560, H = 26 + regimes.length * row + 26, X = 14, low = 0.05, high = 300;
    const x = (v) => X + Math.log(Math.min(high, Math.max(low, v)) / low) / Math.log(high / low) * (W - 2 * X);
    const marks = (under ? [0.1, 1, 10, 100] : [0.1, 0.3, 1, 3, 10, 30, 100]).map((v) => `<path d="M${x(v).toFixed(1)} 18V${H - 20}" style="stroke:var(--rule)"/><text x="${x(v).toFixed(1)}" y="12" text-anchor="middle">${v} m/d</text>`).join("");
    const bars = regimes.map((r, i) => {
      // beside its bar, or below it where there is little room
      const y = 25 + i * row, wide = r.meaning.length * 6.8, right = x(r.high) + 8 + wide < W - X;
      const at = under ? Math.max(X, Math.min(x(r.low), W - X - wide)) : right ? x(r.high) + 8 : x(r.low) - 8, end = !under && !right;
      return `<rect x="${x(r.low).toFixed(1)}" y="${y}" width="${(x(r.high) - x(r.low)).toFixed(1)}" height="12" rx="2" style="fill:var(--water)"/>
        <text x="${at.toFixed(1)}" y="${y + (under ? 25 : 10)}" text-anchor="${end ? "end" : "start"}" class="ink halo">${lines(r.meaning, under && wide > W - 2 * X, at)}</text>`;
    }).join("");
    return `<svg class="chart" viewBox="0 0 ${W} ${H}" role="img" aria-label="${esc(label)}">${marks}${bars}
      <path d="M${x(at).toFixed(1)} 18V${H - 18}" style="stroke:var(--warn);stroke-width:2.5"/>
      <text x="${x(at).toFixed(1)}" y="${H - 4}" text-anchor="${x(at) > W - 90 ? "end" : x(at) < 90 ? "start" : "middle"}" class="ink">this bed: ${units.number(at, at < 10 ? 2 : 0)} m/d</text></svg>`;
  }

  return { width, measure() { known = 0; }, ticks, axis, depth, levels, weeks, balance, level, forget, again, zoom, tradeoff, placeOf, loading, MONTHS };
})();

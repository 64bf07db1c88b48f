// SPDX-License-Identifier: MIT
// Figures of a report that can be zoomed: the numbers that stand beside a
// drawing (scripts/common/html.lua), through uPlot.  The drawing stays for
// paper, and where no script runs.

const DAY = 86400, NARROWEST = 14 * DAY;

// How the time axis writes dates, by the step between them.
const row = (step, text, year) => [step, text, year, null, null, null, null, null, 1];
const DATES = [row(365 * DAY, "{YYYY}", null), row(28 * DAY, "{MMM}", "\n{YYYY}"), row(DAY, "{D} {MMM}", "\n{YYYY}")];

const ink = (name) => (name.startsWith("--") ? getComputedStyle(document.documentElement).getPropertyValue(name).trim() : name);
const seconds = (date) => Date.parse(date + "T00:00:00Z") / 1000;
const day = (t) => new Date(t * 1000).toISOString().slice(0, 10);

function element(tag, attributes, ...children) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) e.setAttribute(name, value);
  e.append(...children);
  return e;
}

// Bars stand in the middle of what they cover; the first, which may be cut short,
// where a whole one would.
function times(panel) {
  const step = (panel.step || 0) * DAY;
  if (panel.days) return panel.days.map((d) => d * DAY);
  if (panel.dates) {
    const list = panel.dates.map((d) => seconds(d) + step / 2);
    if (list.length > 1 && step && list[1] - list[0] < 2 * step) list[0] = list[1] - step;
    return list;
  }
  const first = seconds(panel.first);
  return panel.series[0].values.map((_, i) => first + i * DAY);
}

function yRange(panel) {
  const list = (panel.marks || []).map((m) => m.value);
  for (const s of panel.series) list.push(...[s.values, s.low, s.high].filter(Boolean).flat().filter((v) => v !== null));
  const bars = panel.series.some((s) => s.kind === "bars");
  const least = list.reduce((a, b) => Math.min(a, b), bars ? 0 : Infinity), most = list.reduce((a, b) => Math.max(a, b), -Infinity);
  const room = Math.max((most - least) * 0.07, 1e-6);
  return [bars ? 0 : least - room, most + room];
}

// A series of the figure as one or three of uPlot's, and its band.
function seriesOf(panel) {
  const series = [{}], data = [times(panel)], bands = [];
  for (const s of panel.series) {
    const color = ink(s.color);
    if (s.kind === "band") {
      bands.push({ series: [series.length, series.length + 1], fill: color });
      for (const values of panel.down ? [s.low, s.high] : [s.high, s.low]) {
        series.push({ stroke: color, width: 1, points: { show: false } });
        data.push(values);
      }
      continue;
    }
    const one = { stroke: color, width: 1.6, points: { show: false } };
    if (s.kind === "bars") Object.assign(one, { fill: color, width: 0, paths: uPlot.paths.bars({ size: [0.8, 40] }) });
    if (s.kind === "points") Object.assign(one, { paths: () => null, points: { show: true, size: 7, width: 0, fill: color } });
    series.push(one);
    data.push(s.values);
  }
  return { series, data, bands };
}

// The levels that count, each with its name beside the right end.
function drawMarks(u, panel) {
  const c = u.ctx, ratio = devicePixelRatio, right = u.bbox.left + u.bbox.width;
  let used = -Infinity;
  c.save();
  c.font = `${12 * ratio}px system-ui, sans-serif`;
  c.textAlign = "left";
  c.lineWidth = ratio;
  c.setLineDash([5 * ratio, 4 * ratio]);
  for (const m of panel.marks || []) {
    const y = Math.round(u.valToPos(m.value, "y", true));
    if (y < u.bbox.top || y > u.bbox.top + u.bbox.height) continue;
    c.strokeStyle = c.fillStyle = ink(m.color);
    c.beginPath();
    c.moveTo(u.bbox.left, y);
    c.lineTo(right, y);
    c.stroke();
    used = Math.max(y + 4 * ratio, used + 12 * ratio);
    c.fillText(m.name, right + 5 * ratio, used);
  }
  c.restore();
}

// What is what, where a panel shows more than one thing.
function keyOf(panel) {
  if (panel.series.length < 2) return [];
  return panel.series.map((s) => {
    const sign = element("i", { class: s.kind });
    sign.style.background = ink(s.color);
    return element("span", { class: "key" }, sign, s.name);
  });
}

// What the pointer is at, or nothing.
function told(u, panel) {
  const i = u.cursor.idx;
  if (i === null || i === undefined || u.cursor.left < 0) return "";
  const x = u.data[0][i] - (panel.step || 0) * DAY / 2;
  const words = panel.series.filter((s) => s.values && s.values[i] !== null)
    .map((s) => `${s.name} ${s.values[i].toFixed(panel.digits)} ${panel.unit}`);
  return words.length ? `${panel.step ? "from " : ""}${day(x)}: ${words.join(", ")}` : "";
}

class Figure {
  constructor(figure) {
    this.spec = JSON.parse(figure.querySelector('script[type="application/json"]').textContent);
    const all = this.spec.panels.map((p) => [times(p), (p.step || 0) * DAY / 2]);
    this.first = Math.min(...all.map(([t, half]) => t[0] - half - DAY / 2));
    this.last = Math.max(...all.map(([t, half]) => t[t.length - 1] + Math.max(half - DAY / 2, DAY / 2)));
    [this.min, this.max] = [this.first, this.last];
    [this.from, this.to] = [all[0][0][0], all[0][0][all[0][0].length - 1]];
    this.plots = [];
    this.build(figure);
    this.draw();
  }

  build(figure) {
    const still = figure.querySelector(".scroll"), caption = figure.querySelector("figcaption").textContent;
    const button = (what, shown, name) => {
      const b = element("button", { type: "button", "data-zoom": what, "aria-label": name, title: name }, shown);
      b.addEventListener("click", () => this.zoom(what));
      return b;
    };
    this.read = element("p", { class: "read", role: "status" });
    this.stage = element("div", { class: "stage", tabindex: "0", role: "group",
      "aria-label": `${caption}. Keys: plus and minus zoom, the arrows move, 0 shows all. The numbers are in the tables.` });
    this.box = element("div", { class: "live" },
      element("div", { class: "tools", role: "toolbar", "aria-label": "Zoom: " + caption },
        button("in", "+", "Zoom in"), button("out", "\u2212", "Zoom out"), button("back", "\u2190", "Earlier"),
        button("on", "\u2192", "Later"), button("all", "All", "Show all")), this.stage, this.read);
    still.before(this.box);
    still.classList.add("still");
    this.stage.addEventListener("keydown", (e) => this.key(e));
    this.stage.addEventListener("wheel", (e) => this.wheel(e), { passive: false });
    new ResizeObserver(() => this.plots.forEach((u) => { if (this.width() !== u.width) u.setSize({ width: this.width(), height: u.height }); })).observe(this.stage);
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => this.draw());
  }

  width() { return Math.max(240, this.stage.clientWidth); }

  draw() {
    const { min, max } = this;
    for (const u of this.plots) u.destroy();
    this.stage.replaceChildren();
    this.plots = [];
    const sync = uPlot.sync("figure-" + (Figure.count = (Figure.count || 0) + 1));
    this.spec.panels.forEach((panel, i) => this.plots.push(this.panel(panel, i, sync)));
    this.show(min, max);
  }

  panel(panel, i, sync) {
    const { series, data, bands } = seriesOf(panel), last = i === this.spec.panels.length - 1;
    const axis = { stroke: ink("--faint"), grid: { stroke: ink("--grid"), width: 1 }, ticks: { show: false }, font: "12px system-ui, sans-serif" };
    const holder = element("div", {}, element("p", { class: "unit" }, `${panel.label}, ${panel.unit}`, ...keyOf(panel)));
    this.stage.append(holder);
    const range = yRange(panel), beside = this.spec.panels.some((p) => p.marks) ? 52 : 12;
    const u = new uPlot({
      width: this.width(), height: (i === 0 ? 230 : 110) + (last ? 40 : 0), padding: [10, beside, last ? 0 : 6, 0], legend: { show: false },
      tzDate: (t) => uPlot.tzDate(new Date(t * 1e3), "UTC"),
      cursor: { sync: { key: sync.key, setSeries: false }, y: false, points: { show: false }, drag: { x: true, y: false, uni: 8 } },
      scales: { x: { range: (_, a, b) => this.within(a, b) }, y: { range, dir: panel.down ? -1 : 1 } },
      axes: [Object.assign({ show: last, size: 40, values: DATES }, axis), Object.assign({ size: 54 }, axis)],
      series, bands,
      hooks: {
        draw: [(v) => drawMarks(v, panel)],
        setScale: [(v, key) => { if (key === "x") this.follow(v); }],
        setCursor: [() => this.tell()],
      },
    }, data, holder);
    holder.querySelector("canvas").setAttribute("role", "img");
    holder.querySelector("canvas").setAttribute("aria-label", `${panel.label} in ${panel.unit}, ${day(data[0][0])} to ${day(data[0][data[0].length - 1])}`);
    return u;
  }

  // A stretch of time that is neither too short nor beyond the data.
  within(min, max) {
    const span = Math.min(Math.max(max - min, NARROWEST), this.last - this.first);
    const middle = (min + max) / 2;
    const from = Math.max(this.first, Math.min(middle - span / 2, this.last - span));
    return [from, from + span];
  }

  show(min, max) {
    [this.min, this.max] = this.within(min, max);
    for (const u of this.plots) u.setScale("x", { min: this.min, max: this.max });
    this.tell();
  }

  // One panel was dragged: the others go along.
  follow(u) {
    const { min, max } = u.scales.x;
    const same = Math.abs(min - this.min) < 1 && Math.abs(max - this.max) < 1;
    if (same || this.plots.length < this.spec.panels.length) return;
    queueMicrotask(() => this.show(min, max));
  }

  zoom(what) {
    const { min, max } = this, span = max - min, middle = (min + max) / 2;
    if (what === "in") this.show(middle - span / 4, middle + span / 4);
    if (what === "out") this.show(middle - span, middle + span);
    if (what === "back") this.show(min - span / 2, max - span / 2);
    if (what === "on") this.show(min + span / 2, max + span / 2);
    if (what === "all") this.show(this.first, this.last);
  }

  key(event) {
    const what = { "+": "in", "=": "in", "-": "out", ArrowLeft: "back", ArrowRight: "on", 0: "all", Home: "all" }[event.key];
    if (!what || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    this.zoom(what);
  }

  // Only once the figure was clicked or reached by key: else the page scrolls.
  wheel(event) {
    if (document.activeElement !== this.stage) return;
    event.preventDefault();
    const box = this.plots[0].over.getBoundingClientRect();
    const at = this.min + (this.max - this.min) * Math.min(1, Math.max(0, (event.clientX - box.left) / box.width));
    const factor = event.deltaY < 0 ? 0.8 : 1.25;
    this.show(at - (at - this.min) * factor, at + (this.max - at) * factor);
  }

  tell() {
    const words = this.plots.map((u, i) => told(u, this.spec.panels[i])).filter(Boolean);
    this.read.textContent = words.length ? words.join("; ") : `${day(Math.max(this.from, this.min + DAY / 2))} to ${day(Math.min(this.to, this.max - DAY / 2))}. Drag across to zoom in.`;
  }
}

for (const figure of document.querySelectorAll("figure.plot")) new Figure(figure);

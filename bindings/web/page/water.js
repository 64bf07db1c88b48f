// SPDX-License-Identifier: MIT
// The owner's answers: one job as words, pictures and tables.

const water = (() => {
  const MONTHS = charts.MONTHS;
  const WEEKS_LISTED = 60;

  const strong = (s) => `<strong>${esc(s)}</strong>`;
  const money = (job, volume) => (job.price === null ? "" : `${units.number(volume * job.price, 2)} ${job.currency}`.trim());
  const beside = (r) => r.bed + r.stream + r.splash + r.seepage + r.withdrawal;
  const yearOf = (p) => Number(ledger.dateText(p.first).slice(0, 4));
  const monthOf = (p) => new Date(p.first * 86400000).getUTCMonth();

  function table(caption, heads, rows, foot) {
    const cells = (row) => row.map((c, i) => (i === 0 ? `<th scope="row">${c}</th>` : `<td>${c}</td>`)).join("");
    return `<div class="scroll" tabindex="0" role="region" aria-label="${esc(caption)}"><table><caption>${esc(caption)}</caption>
      <thead><tr>${heads.map((h) => `<th scope="col">${h}</th>`).join("")}</tr></thead>
      <tbody>${rows.map((r) => `<tr>${cells(r)}</tr>`).join("")}</tbody>${foot ? `<tfoot><tr>${cells(foot)}</tr></tfoot>` : ""}</table></div>`;
  }

  function fold(id, title, inner, open) {
    return `<details id="${id}"${open ? " open" : ""}><summary>${esc(title)}</summary>${inner}</details>`;
  }

  // ---- the answer in a few sentences -----------------------------------------------

  function headline(job) {
    const t = job.totals, week = 7 / t.days, paid = money(job, t.topup / t.days * 365.25);
    const years = ledger.whole(job.years).map((y) => y.topup);
    let out = `<p>${esc(job.description.name || "This pond")} takes about ${strong(units.show("volume", t.topup * week) + " a week")} of top-up water` +
      ` on average${paid ? `, ${strong(paid + " a year")}` : ""}.</p>`;
    const more = [`From ${ledger.dateText(t.first)} to ${ledger.dateText(t.last)}: ${units.show("volume", t.topup)} in ${units.number(t.days, 0)} days.`];
    if (job.band && job.band.length) {
      const all = job.band.map((b) => b.totals.topup).concat(t.topup);
      more.push(`The methods that this weather allows give ${units.range("volume", Math.min(...all) * week, Math.max(...all) * week)} a week: take the figure as an estimate, not a measurement.`);
    }
    if (years.length >= 3) {
      more.push(`Of its ${years.length} whole years the middle one takes ${units.show("volume", stats.percentile(years, 50))}, a dry one (P90) ${units.show("volume", stats.percentile(years, 90))}.`);
    }
    return out + `<p class="note">${more.map(esc).join(" ")}</p>`;
  }

  function figures(job) {
    const t = job.totals, losses = t.evaporation + t.bed + t.stream + t.splash + t.seepage + t.withdrawal;
    const weeks = ledger.whole(job.weeks), drops = weeks.map((w) => w.drop_mm), greatest = weeks.reduce((a, w) => (w.topup > a.topup ? w : a), weeks[0] || job.totals);
    const summer = stats.percentile(drops, 90), list = [
      ["Top-up in the greatest week", units.show("volume", greatest.topup)],
      ["Drop at the ruler, usual week", units.show("depth", stats.percentile(drops, 50) / 1000)],
      ["The same, one week in ten", units.show("depth", summer / 1000)],
      ["All losses at the ruler, times the open water's", units.number(losses / t.evaporation, 2)],
      ["Basin at the overflow", units.show("volume", job.facts.lip_volume)],
    ];
    if (job.endurance) {
      const { horizon, rows } = ledger.enduranceByMonth(job), shortest = rows.reduce((a, r) => Math.min(a, r.p10), Infinity);
      list.splice(3, 0, ["Days to the intake, worst month (P10)", shortest > horizon ? "over " + horizon : units.number(shortest, 0)]);
    }
    return `<dl class="figures">${list.map(([dt, dd]) => `<div><dt>${esc(dt)}</dt><dd>${esc(dd)}</dd></div>`).join("")}</dl>`;
  }

  function warnings(job) {
    const t = job.totals, list = [], days = (n) => `On ${n} day${n === 1 ? "" : "s"}`;
    if (job.description.bed && job.pond.bed_area === 0) list.push("The bed has no size yet (length and width, or area): none of these figures counts it. The chapter on the bed proposes one.");
    if (t.refused) list.push(`${days(t.refused)} top-up was wanted and not allowed.`);
    if (t.unmet > 1e-9) list.push(`Top-up wanted and not given: ${units.show("volume", t.unmet)}.`);
    if (t.starved) list.push(`${days(t.starved)} the pond held too little water to start its pump.`);
    if (t.under_intake) list.push(`${days(t.under_intake)} the level ended under the intake.`);
    if (t.dry) list.push(`${days(t.dry)} a loss found no water: ${units.show("volume", t.shortfall)} in all.`);
    return list.length ? `<div class="error"><strong>Take note</strong><ul>${list.map((s) => `<li>${esc(s)}</li>`).join("")}</ul></div>` : "";
  }

  // ---- weeks -----------------------------------------------------------------------

  function weeks(job) {
    const v = units.unit("volume"), d = units.unit("depth");
    if (job.weeks.length > WEEKS_LISTED) {
      const rows = ledger.typicalWeeks(job);
      const bars = rows.map((r) => ({
        title: `Week ${r.week}: mean ${units.show("volume", r.mean)}, P10 to P90 ${units.range("volume", r.p10, r.p90)}`,
        value: units.value("volume", r.mean), low: units.value("volume", r.p10), high: units.value("volume", r.p90), month: new Date(r.first * 86400000 + 3 * 86400000).getUTCMonth(), monthStart: true,
      }));
      const most = rows.reduce((a, r) => (r.mean > a.mean ? r : a));
      return `<section><h3>Top-up through the year</h3><figure>
        ${charts.weeks(bars, v, `Mean top-up of each of ${rows.length} weeks of the year with the band from P10 to P90; the most is ${units.show("volume", most.mean)} in week ${most.week}. The table below has the figures.`)}
        <ul class="key" aria-hidden="true"><li><i style="background:var(--water)"></i>mean of the years</li><li><i style="background:var(--water-soft)"></i>from P10 to P90</li></ul>
        <figcaption>Each week of the year, over ${Math.max(...rows.map((r) => r.years))} years. In one year of ten it is less than P10, in nine of ten less than P90.</figcaption></figure>
        ${fold("fold-weeks", "Week by week, in figures", table("The weeks of a year, over all years",
    ["Week", "Years", `Top-up P10<br>${v}`, `P50<br>${v}`, `P90<br>${v}`, `mean<br>${v}`, `Drop P50<br>${d}`, `P90<br>${d}`],
    rows.map((r) => [`W${String(r.week).padStart(2, "0")} from ${r.from}`, r.years, units.cell("volume", r.p10), units.cell("volume", r.p50), units.cell("volume", r.p90),
      units.cell("volume", r.mean), units.cell("depth", r.drop50 / 1000), units.cell("depth", r.drop90 / 1000)])))}</section>`;
    }
    const bars = job.weeks.map((w) => ({
      title: `${w.weekYear}-W${String(w.week).padStart(2, "0")}: ${units.show("volume", w.topup)}`, value: units.value("volume", w.topup),
      month: monthOf(w), year: yearOf(w), monthStart: true,
    }));
    return `<section><h3>Top-up by week</h3><figure>${charts.weeks(bars, v, `Top-up of ${bars.length} weeks; the table below has the figures.`)}
      <figcaption>Weeks begin on Monday. With three years of weather or more, this shows the band of dry and wet years.</figcaption></figure>
      ${fold("fold-weeks", "Week by week, in figures", table("Weeks", ["Week", `Top-up<br>${v}`, `Drop at the ruler<br>${d}`, `Rain<br>${v}`],
    job.weeks.map((w) => [`${w.weekYear}-W${String(w.week).padStart(2, "0")}${w.complete ? "" : " (part)"}`, units.cell("volume", w.topup), units.cell("depth", w.drop_mm / 1000), units.cell("volume", w.rain + w.runoff)])))}</section>`;
  }

  // ---- level -----------------------------------------------------------------------

  function levelWords(job) {
    const low = Math.min(...job.months.map((m) => m.lowest_level));
    return `Level of the pond on ${units.number(job.count, 0)} days; the lowest is ${units.show("depth", job.pond.lip - low)} under the overflow`;
  }

  // 'picture': a still one in place of that which can be looked into.
  function level(job, picture) {
    const words = levelWords(job);
    return `<section><h3>The level, day by day</h3><figure>
      ${picture || `<div id="level-chart" role="img" aria-label="${esc(words)}"></div>`}
      <div class="zoom" role="group" aria-label="Look closer at the level"><button type="button" data-zoom="in">closer</button><button type="button" data-zoom="out">further</button>
      <button type="button" data-zoom="back" aria-label="earlier">&larr;</button><button type="button" data-zoom="on" aria-label="later">&rarr;</button>
      <button type="button" data-zoom="all">all</button> <span class="note" id="level-at"></span></div>
      <figcaption>${units.system === "us" ? "Inches" : "Millimetres"} under the overflow, at the end of each day. ${words}.${picture ? "" : " Drag across to look closer."}</figcaption></figure></section>`;
  }

  // ---- months and years --------------------------------------------------------------

  function balanceHeads(first, job) {
    const v = `<br>${units.unit("volume")}`;
    return [first, "Rain" + v, "Evaporation" + v, "Other losses" + v, "Overflow" + v, "Top-up" + v, `Drop at the ruler<br>${units.unit("depth")}`]
      .concat(job.price === null ? [] : [`Cost<br>${esc(job.currency)}`]);
  }
  function balanceRow(label, r, job, share) {
    const k = share || 1, cell = (x) => units.cell("volume", x * k);
    return [esc(label), cell(r.rain + r.runoff), cell(r.evaporation), cell(beside(r)), cell(r.overflow), cell(r.topup), units.cell("depth", r.drop_mm * k / 1000)]
      .concat(job.price === null ? [] : [units.number(r.topup * k * job.price, 2)]);
  }

  function months(job) {
    const many = job.months.length > 14, rows = many ? ledger.typicalMonths(job) : job.months;
    const names = rows.map((m) => (many ? MONTHS[m.month] : `${MONTHS[monthOf(m)]} ${yearOf(m)}${m.complete ? "" : " (part)"}`));
    const share = many ? 365.25 / job.totals.days : 1;
    return `<section><h3>In and out, month by month</h3><figure>${charts.balance(rows, names, "Water in and out of the pond by month; the table below has the figures")}</figure>
      ${table(many ? "Month by month, mean of the years" : "Month by month", balanceHeads("Month", job), rows.map((m, i) => balanceRow(names[i], m, job)),
    balanceRow(many ? "A year" : "In all", job.totals, job, share))}
      <p class="note">Other losses: plants of the bed, stream and falls, splash, seepage, use. Drop at the ruler: how far the losses alone would lower the level.</p></section>`;
  }

  function years(job) {
    const list = ledger.whole(job.years);
    if (list.length < 2) return "";
    return `<section><h3>Year by year</h3>${fold("fold-years", `${list.length} whole years`, table("Whole years", balanceHeads("Year", job), list.map((y) => balanceRow(String(yearOf(y)), y, job))), list.length <= 12)}
      ${list.length < 10 ? `<p class="note">Only ${list.length} whole years: percentiles are rough.</p>` : ""}</section>`;
  }

  // ---- away, pump, method ---------------------------------------------------------------

  function away(job) {
    const head = "<section><h3>Away from home</h3>";
    if (Number.isNaN(job.pond.intake)) return `${head}<p class="note">Give the intake level to see how many days the pond lasts without top-up.</p></section>`;
    if (job.band && !job.endurance) return "";
    if (!job.endurance) return `${head}<p class="note">Counting the days…</p></section>`;
    const { horizon, rows } = ledger.enduranceByMonth(job), cell = (d) => (d > horizon ? `over ${horizon}` : units.number(d, 0));
    const [from, where] = full(job);
    return `${head}${table("Days until the intake is exposed, without top-up", ["Leaving in", "Worst", "P10", "P50", "Starts"],
      rows.map((r) => [MONTHS[r.month], cell(r.worst), cell(r.p10), cell(r.p50), r.list.length]))}
      <p class="note">From the ${where} down to the intake: ${esc(units.show("depth", from - job.pond.intake))}. In one start of ten it takes fewer days than P10, in half fewer than P50. Wind, a leak and splash that is not described shorten it.</p></section>`;
  }

  // Level at which a run begins, and its name.
  function full(job) {
    const { target, trigger, lip } = job.pond;
    return !Number.isNaN(target) ? [target, "target level"] : !Number.isNaN(trigger) ? [trigger, "level where top-up ends"] : [lip, "overflow"];
  }

  function pump(job) {
    const [at, where] = full(job);
    const address = core.call("swing", at);
    if (!address) return "";
    const s = core.read("swing", address);
    const stop = s.spill > 0 ? `and ${units.show("volume", s.spill)} runs over` : `and ${units.show("depth", job.pond.lip - s.stopped)} are left to the overflow`;
    return `<section><h3>When the pump stops</h3><p>Running and at the ${where}, a stop lets ${esc(units.show("volume", job.facts.transit))} come back: the level rises ${esc(units.show("depth", s.stopped - at))}, ${esc(stop)}. A start pulls it down as far.</p>
      ${job.facts.transit === 0 ? `<p class="note">Nothing is described as held above the pond (bed head, stream depth, drainback): measure the rise once.</p>` : ""}</section>`;
  }

  function band(job) {
    if (!job.band || !job.band.length) return "";
    const week = 7 / job.totals.days, row = (title, t) => [esc(title), units.cell("volume", t.topup * week)];
    return `<section><h3>One figure and its band</h3>${table("Top-up a week by each method that this weather allows", ["Method of evaporation", `Top-up a week<br>${units.unit("volume")}`],
      [row(job.report.title + " (this page)", job.totals)].concat(job.band.map((b) => row(b.title, b.totals))))}</section>`;
  }

  function assumptions(job) {
    const d = job.description, e = d.evaporation || {}, p = job.pond, list = [`Evaporation: ${job.report.title}.`];
    for (const r of job.report.rules) list.push(`${r.title}: ${r.days} of ${job.count} days.`);
    list.push(...weather.notes());
    if (e.shelter === undefined) list.push("Wind at the pond as at the station: give shelter if walls or trees stand around it.");
    if (e.shade === undefined) list.push("Sun at the pond as at the station: give shade if trees or walls stand around it.");
    list.push(d.splash === undefined ? "Splash: none described. It is a figure that only a measurement gives (falls on, then off)."
      : `Splash: ${units.show("rate", p.splash)} while the pump runs, as described.`);
    if (!d.seepage) list.push("Seepage: none described; a sound liner loses nothing that a ruler shows.");
    if (p.bed_area > 0 && (!d.bed || d.bed.plant_factor === undefined)) list.push("Plants of the bed: 1.2 x grass reference all year (FAO-56 Table 12); a few square metres in dry surroundings take more, dead stands less.");
    if (job.facts.wetted - job.facts.lip_area - p.bed_area > 1e-9) list.push(`Stream and falls evaporate ${units.number(p.stream_factor, 1)} times as much as still water.`);
    if (!d.pump || d.pump.hours === undefined) list.push("The pump runs all day, all year.");
    if (Number.isNaN(p.trigger)) list.push("No top-up is described (no trigger level).");
    else if (!d.supply) list.push("The supply gives as much as is wanted, on any day.");
    for (const s of describe.unused(d)) list.push(`The section '${s}' is kept, but this page does not use it.`);
    list.push(`The ledger closes to ${job.residual.toExponential(0)} of the water turned over.`);
    return `<section><h3>Method and assumptions</h3><ul>${list.map((s) => `<li>${esc(s)}</li>`).join("")}</ul></section>`;
  }

  const CAUTIONS = [
    "An estimate from weather and sizes; a meter and a ruler on the pond itself are better. From weather alone nobody can say that a pond leaks.",
    "Fill through an air gap or an approved backflow preventer: pond water must never reach drinking water. Local plumbing codes rule.",
    "Tap water holds chlorine or chloramine: fish stand small, slow additions best; ask your supplier what it uses.",
    "Deep water is a danger to children, and pumps to all if their wiring is not protected: follow local codes and leave electrical work to licensed people.",
  ];

  // For paper: what the figures rest on.
  function inputs(job) {
    const rows = [];
    for (const s of [""].concat(fields.sections)) {
      const object = s ? job.description[s] : job.description;
      if (!object || Array.isArray(object)) continue;
      for (const r of fields.rowsOf(s)) {
        const v = object[r.name], unit = units.asked(fields.full(s, r.name), r.unit);
        if (v === undefined) continue;
        const text = Array.isArray(v) ? v.map((x) => units.edit(x, unit)).join(", ") : typeof v === "number" ? `${units.edit(v, unit)} ${unit.label}` : String(v);
        rows.push([esc(fields.full(s, r.name)), esc(text)]);
      }
    }
    return `<section class="printed"><h3>What it rests on</h3><p>Weather: ${esc(weather.state.name)}</p><div class="columns">${table("The description", ["Field", "Value"], rows)}</div>
      <ul>${CAUTIONS.map((c) => `<li>${esc(c)}</li>`).join("")}</ul></section>`;
  }

  const exportRow = () => `<section class="files"><p><button type="button" id="save-csv">Save the daily ledger (CSV)</button> <button type="button" id="print-too">Print these answers</button></p></section>`;

  // ---- the page -------------------------------------------------------------------------

  let folds = {};

  const rest = (job) => months(job) + years(job) + `<div id="later">${later(job)}</div>` + assumptions(job) + exportRow() + inputs(job);

  // All of it as text, the level as a still picture; "" without a job.
  function html(job) {
    return job ? headline(job) + warnings(job) + figures(job) + weeks(job) + level(job, levels.daily(job, levelWords(job))) + rest(job) : "";
  }

  function unfold(box) {
    for (const d of box.querySelectorAll("details[id]")) if (d.id in folds) d.open = folds[d.id];
  }

  // The first picture, as soon as may be; renderRest follows when it is seen.
  // Until then the rest of the last job holds its place, so that nothing jumps.
  function render(job) {
    const root = document.getElementById("results"), old = document.getElementById("rest");
    for (const d of root.querySelectorAll("details[id]")) folds[d.id] = d.open;
    document.getElementById("headline").innerHTML = headline(job) + warnings(job);
    root.innerHTML = figures(job) + weeks(job) + level(job, "") + `<div id="rest"></div>`;
    unfold(root);
    if (old) document.getElementById("rest").replaceWith(old);
    charts.level(document.getElementById("level-chart"), job);
  }

  function renderRest(job) {
    const box = document.getElementById("rest");
    box.innerHTML = rest(job);
    unfold(box);
  }

  function renderAll(job) {
    render(job);
    renderRest(job);
  }

  const later = (job) => away(job) + pump(job) + band(job);

  // When endurance and band have come.
  function renderLater(job) {
    document.getElementById("headline").innerHTML = headline(job) + warnings(job);
    document.querySelector("#results .figures").outerHTML = figures(job);
    document.getElementById("later").innerHTML = later(job);
  }

  function empty() {
    document.getElementById("headline").innerHTML = `<p>Give the page your weather and your pond, and it tells how much water the pond takes: by week, in a dry year, in money; how far the level falls at the ruler; and how many days you can be away.</p>
      <p class="note">No weather file at hand? The sample is four years of Seattle (NOAA daily summaries 2012 to 2015, public domain), with a made-up courtyard pond.</p>`;
    document.getElementById("results").innerHTML = "";
  }

  // What a weather file holds.
  function found() {
    const rows = weather.summaries(), first = weather.first(), days = weather.days();
    const notes = weather.notes();
    document.getElementById("weather-found").innerHTML = `<p><strong>${esc(weather.state.name)}</strong>: ${units.number(days, 0)} days, ${ledger.dateText(first)} to ${ledger.dateText(first + days - 1)}.</p>
      ${fold("fold-weather", "What it holds", table("Columns that were read", ["Column", "Missing", "Least", "Mean", "Most"],
    rows.map((s) => [`${esc(s.meaning)}, ${esc(s.unit)}`, s.missing, units.number(s.min, 1), units.number(s.mean, 1), units.number(s.max, 1)])) +
      (notes.length ? `<ul>${notes.map((n) => `<li>${esc(n)}</li>`).join("")}</ul>` : ""))}`;
  }

  return { html, render, renderRest, renderAll, renderLater, empty, found, table, CAUTIONS };
})();

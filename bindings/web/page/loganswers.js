// SPDX-License-Identifier: MIT
// What a log says: the words of the program's own report on it.

const logAnswers = (() => {
  const INTERVALS_LISTED = 12;
  const INSIDE = 0, OUTSIDE = 1;		// of the library's verdicts
  // By the library's uses of an interval; null: used.
  const USES = [null, null, "water was added, and how much is not known", "the pump was switched: water in transit came or went",
    "the note sets them aside", "outside the weather's dates", "at the lip with rain: what ran over is not known", "a rise without rain or note"];

  const drop = (mm, days) => units.show("depth", mm * (days || 1) / 1000);
  const drops = (e, days) => units.range("depth", e.low * (days || 1) / 1000, e.high * (days || 1) / 1000);
  const volumes = (e) => units.range("volume", e.low, e.high);
  const date = (day) => ledger.dateText(day);
  const p = (s) => `<p>${esc(s)}</p>`;

  function verdict({ r, matters }) {
    if (r.gains) return "Inside what weather explains, and less is lost than weather would have: is the fill valve shut, does other water come in, or is the pond more shaded or sheltered than its description says?";
    if (r.verdict === OUTSIDE) {
      return `Outside what weather explains. ${r.change_found ? "The loss after the change stands" : "The interval lies"} wholly above zero; of sound ponds one in twenty gives such an answer. It does not say where the water goes: splash, a wet edge, a wrong area and a leak look alike in a log.`;
    }
    if (r.verdict === INSIDE) return `Inside what weather explains. The interval holds zero, and a loss of ${drop(matters)}/day, which is worth searching for, lies outside it.`;
    return `Cannot tell. The interval holds zero, and also losses of ${drop(matters)}/day that are worth searching for: it is near the noise. A log such as this one shows a loss of ${drop(r.resolvable_mm_d)}/day or more, nine times in ten.`;
  }

  function answer(job) {
    const { r, facts, pond, intervals } = job;
    const told = intervals.filter((v) => !USES[v.use] && !Number.isNaN(v.rain_mm));
    const sum = (name) => told.reduce((a, v) => a + v[name], 0);
    const first = `Open water ${units.show("area", r.area)}, bed ${units.show("area", pond.bed_area)}, stream ${units.show("area", facts.wetted - facts.lip_area - pond.bed_area)}. ` +
      `${r.used} of ${r.readings - 1} intervals from ${date(intervals[0].from)} to ${date(intervals[intervals.length - 1].to)}, ${Number(r.days.toPrecision(4))} days: open-water evaporation ${drop(sum("open_water_mm"))}, rain ${drop(sum("rain_mm"))}.`;
    const second = job.info.levels > 0 ? `Expected drop at your ruler: ${drop(r.expected_mm.mean)} (${drops(r.expected_mm)}). You logged ${drop(r.logged_mm)}.` : "";
    const e = r.unexplained_mm_d, v = r.unexplained_m3_d;
    return p(first) + (second ? p(second) : "") + `<p>Unexplained${r.change_found ? ", over the whole log" : ""}: <strong>${esc(drops(e, 7))} a week</strong>, about ${esc(volumes(v))} a day at the ruler, best ${esc(units.cell("volume", v.mean))}. The interval holds the truth nine times in ten.</p>`;
  }

  function change({ r }) {
    if (!r.change_found) return "";
    const after = r.change_after_mm_d;
    return p(`Something changed between ${date(r.change_first)} and ${date(r.change_last)}, most likely about ${date(r.change_day)} (${units.number(Math.min(99, 100 * r.change_chance), 0)} % sure): from ${drops(r.change_before_mm_d)}/day unexplained before to ${drops(after)}/day after, which is ${volumes({ low: after.low / 1000 * r.area, high: after.high / 1000 * r.area })}/day now.`);
  }

  function next({ r, intervals, matters }) {
    if (r.verdict === INSIDE && !r.gains) return "Keep the log: one reading a week, at the same hour, with the fill valve shut or its meter read, tells when that changes.";
    const told = intervals.filter((v) => !Number.isNaN(v.open_water_mm)), sum = (name) => told.reduce((a, v) => a + v[name], 0);
    const aim = Math.max(matters, r.unexplained_mm_d.mean);
    const hours = Math.max(24, Math.min(96, Math.ceil(core.call("pair_hours", aim, 0.1 * sum("open_water_mm") / sum("days")) / 24) * 24));
    return `Shut the fill valve, stand a bucket of pond water on a step, mark both levels; pump on for ${hours} h, read; pump off for ${hours} h (let the level settle an hour first), read. A rainy test is void. Enter the readings under the bucket test. Two days are better than one; fish need air.`;
  }

  function figures({ r }) {
    const factor = (e) => [units.number(e.mean, 2), units.number(e.low, 2), units.number(e.high, 2)];
    const cells = (kind, e, k) => [e.mean, e.low, e.high].map((x) => units.cell(kind, x / k));
    const rows = [["Evaporation, times the expected", ...factor(r.evaporation_factor)], ["Rain, times the gauge", ...factor(r.rain_factor)],
      [`Unexplained, ${units.unit("depth")} a day`, ...cells("depth", r.unexplained_mm_d, 1000)], [`Unexplained, ${esc(units.unit("volume"))} a day`, ...cells("volume", r.unexplained_m3_d, 1)]];
    let out = `<section><h3>What the log says</h3>${water.table("The fit", ["Quantity", "Best", "90 % from", "to"], rows)}`;
    if (r.evaporation_factor.high < 0.85 || r.evaporation_factor.low > 1.15) {
      out += p(`The log wants ${units.number(r.evaporation_factor.mean, 2)} times the expected evaporation: farther off than the methods stand apart. Look at the areas, at shelter and shade in the description, at the station's distance, before trusting the rest.`);
    }
    if (r.head_tells) {
      const h = r.per_head_m3_d_m, per = units.factor(units.system === "us" ? "inch" : "cm");
      out += p(`The loss grows with the level: ${units.show("volume", h.mean * per)}/day for each ${units.system === "us" ? "inch" : "centimetre"}, ${volumes({ low: h.low * per, high: h.high * per })}. A hole sits between the levels where it stops.`);
    }
    return out + "</section>";
  }

  function meter({ weeks }) {
    if (!weeks.length) return "";
    const v = `<br>${units.unit("volume")}`, over = weeks.filter((w) => w.over).length;
    return `<section><h3>The meter, week by week</h3>${water.table("Metered water", ["From", "Metered" + v, "Implied loss a day" + v, "Expected a day" + v, "at most (P95)" + v, "Note"],
      weeks.map((w) => [`${date(w.first)} to ${date(w.last).slice(5)}`, units.cell("volume", w.metered), units.cell("volume", w.implied / w.days), units.cell("volume", w.expected / w.days), units.cell("volume", w.expected_high / w.days), w.over ? "above" : ""]))}
      ${p(`${over} of ${weeks.length} weeks stand above what weather explains. One in twenty does by chance; since one error of evaporation rules all weeks, such weeks come in runs.`)}</section>`;
  }

  function listed({ intervals, r }) {
    const rows = intervals.filter((v) => !USES[v.use] && !Number.isNaN(v.expected_mm)).map((v) => Object.assign({ over: (v.logged_mm - v.expected_mm) / v.expected_sd_mm }, v));
    const most = rows.slice().sort((a, b) => Math.abs(b.over) - Math.abs(a.over)).slice(0, INTERVALS_LISTED).sort((a, b) => a.from - b.from);
    const d = `<br>${units.unit("depth")}`, heads = ["Days", "Length<br>d", "Logged drop" + d, "Expected drop" + d, "Difference" + d, "Note"];
    const cell = (mm) => units.cell("depth", mm / 1000);
    const row = (v) => [`${date(v.from)} to ${date(v.to).slice(5)}`, String(Number(v.days.toPrecision(4))), cell(v.logged_mm), cell(v.expected_mm), cell(v.logged_mm - v.expected_mm), v.wild ? "set low" : v.over > 1.64 ? "high" : ""];
    const notes = USES.map((use, i) => [intervals.filter((v) => v.use === i).length, use]).filter(([n, use]) => use && n).map(([n, use]) => `${n} set aside: ${use}.`);
    if (r.wild > 0) notes.push(`${r.wild} readings or intervals look wild (a misread ruler, a hose forgotten) and count little.`);
    const few = rows.length > INTERVALS_LISTED;
    return `<section><h3>Interval by interval</h3>${few ? p(`The ${INTERVALS_LISTED} that differ most, of ${rows.length}.`) : ""}${water.table("Intervals between two readings", heads, most.map(row))}
      ${few ? `<details><summary>All ${rows.length}</summary>${water.table("All intervals", heads, rows.map(row))}</details>` : ""}<ul>${notes.map((n) => `<li>${esc(n)}</li>`).join("")}</ul></section>`;
  }

  function calibration({ r, calibrated, holdout }) {
    const factor = calibrated && units.number(calibrated.open_water_factor, 3);
    let out;
    if (!calibrated) out = p("The fit leaves the range of a description.");
    else if (r.change_found) out = p(`Something changed within the log, so that one seepage would be right neither before nor after: none is proposed. Evaporation alone: open_water_factor ${factor}, the bed's plant_factor times the same.`);
    else {
      const lost = r.unexplained_m3_d.low > 0;
      out = p(`For the description, so that other reports follow this pond: open_water_factor ${factor}, the bed's plant_factor times ${units.number((lost ? r.evaporation_factor : r.sound_factor).mean, 3)}${lost
        ? `, seepage volume ${units.show("rate", calibrated.seepage_volume)}. A loss that is mended is not to be put in.`
        : ", fitted without a loss. No seepage is proposed: the interval of what is unexplained does not lie above zero."}`);
      if (holdout) out += p(`Fitted on the first ${holdout.fitted} readings, it predicts the ${holdout.predicted} others over ${Number(holdout.days.toPrecision(4))} days with an error of ${drop(holdout.rms_mm)} (root mean square); uncalibrated, ${drop(holdout.plain_rms_mm)}.`);
    }
    return `<section><h3>Calibration</h3>${out}</section>`;
  }

  function method({ r, info, method: title, rules, days, options, pond }) {
    const list = [`Evaporation: ${title}; one factor for all of it, 1 ± 0.15 before the log is read (90 % within a quarter). Rain: 1 ± 0.10.`];
    for (const rule of rules) list.push(`${rule.title}: ${rule.days} of ${days} days.`);
    const zero = options.zero === undefined ? (info.counts_down ? pond.lip : core.call("basin_floor")) : options.zero;
    const error = options.reading_error === undefined ? units.factor("inch") / 16 : options.reading_error;
    list.push(`A ruler that counts ${info.counts_down ? "down" : "up"} from its zero at ${units.show("length", zero)} above the floor; readings good to ${units.show("depth", error)} (one standard deviation), times ${units.number(r.noise, 2)} by the log itself.`);
    if (info.without_time > 0) list.push(`${info.without_time} readings without a time: taken at ${options.hour === undefined ? 8 : options.hour}:00.`);
    if (info.ignored) list.push(`Columns of the log that were not used: ${info.ignored}.`);
    if (info.unread_notes > 0) list.push(`${info.unread_notes} note${info.unread_notes === 1 ? "" : "s"} of the log not understood.`);
    list.push("Between two readings the level comes from the same daily ledger as all reports; the fill valve is taken as shut unless a meter says otherwise.");
    return `<section><h3>Method and assumptions of the log</h3><ul>${list.map((s) => `<li>${esc(s)}</li>`).join("")}</ul></section>`;
  }

  function render(job) {
    const head = core.say("verdict", job.r.verdict), label = `Level under the overflow at ${job.points.length} readings, beside the band that weather explains: ${head}`;
    return `<section><h3 id="log-verdict">The log: ${esc(head)}</h3>${answer(job)}${p(verdict(job))}${change(job)}
      <figure>${levels.log(job.points, job.pond.lip, label)}</figure></section>
      <section><h3>Next</h3>${p(next(job))}</section>${figures(job)}${meter(job)}${listed(job)}${calibration(job)}${method(job)}
      <section><h3>Cautions</h3><ul><li>From weather alone nobody can say that a pond leaks. Ten percent of a hot day's evaporation is as much as many a leak.</li>
      <li>While the pump is off fish and filter lack air: use an air pump, and stop the test if fish gasp.</li>
      <li>Switch off and unplug before reaching into the water; leave wiring to licensed people.</li></ul></section>`;
  }

  function empty() {
    return `<p>Write down the level now and then, with the fill valve shut: <em>date, time, reading_in</em> (or <em>reading_mm</em>), counted down from a mark, and a <em>note</em> where water was added. Such a log, beside the weather of its days, tells how much of the fall evaporation explains.</p>`;
  }

  return { render, empty };
})();

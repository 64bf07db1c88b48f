// SPDX-License-Identifier: MIT
// One job: pond x weather -> ledger, its periods, and what is asked beside it.

const FLAGS = { running: 1, starved: 2, underIntake: 4, toppedUp: 8, refused: 16, spilled: 32, dry: 64 };
const FLOWS = ["rain", "runoff", "tank", "topup", "evaporation", "bed", "stream", "splash", "seepage", "withdrawal",
  "overflow", "shortfall", "unmet"];

const ledger = (() => {
  const SHORT = 30;		// days: too little weather to say how long a pond lasts
  const KIND = { week: 1, month: 2, year: 3, run: 4 };

  function dateText(day) {
    return new Date(day * 86400000).toISOString().slice(0, 10);
  }

  function periods(kind, names) {
    const count = core.must("periods", KIND[kind]);
    return core.readAll("period", core.call("period"), count, names);
  }

  function report() {
    const rules = [];
    for (let r = 0; r < core.call("rules"); r++) {
      const days = core.call("rule_days", r);
      if (days) rules.push({ title: core.say("rule_title", r), days });
    }
    const method = core.call("method");
    return { method, title: core.say("method_text", method, 1), rules };
  }

  // Runs the ledger of the described pond over the weather that was read.
  function run(description) {
    const first = weather.first(), last = first + weather.days() - 1;
    core.must("run", core.call("methods"));
    const count = core.call("ledger_days");
    const totals = periods("run")[0];
    const weeks = periods("week", ["first", "complete", "topup", "drop_mm", "rain", "runoff"]);
    for (const w of weeks) {
      w.week = core.call("iso_week", w.first);
      w.weekYear = core.call("iso_year", w.first);
      w.year = Number(dateText(w.first).slice(0, 4));
    }
    const costs = description.costs || {};
    const priced = costs.water !== undefined || costs.sewer !== undefined;
    return {
      description, first, last, count, totals, weeks, months: periods("month"), years: periods("year"),
      days: core.columns("day", core.call("ledger"), count, ["day", "level"]), report: report(), residual: core.call("residual"),
      facts: core.read("facts", core.call("facts")), pond: core.read("pond", core.call("pond")),
      price: priced ? (costs.water || 0) + (costs.sewer || 0) : null, currency: costs.currency || "",
      band: null, endurance: null,
    };
  }

  // Days to the intake, some years of starts at a time; 'more' is asked to go on.
  async function endurance(job, more) {
    const days = new Int32Array(job.count), step = 1461;
    if (Number.isNaN(job.pond.intake) || job.count < SHORT) return null;
    for (let from = 0; from < job.count; from += step) {
      const n = Math.min(step, job.count - from);
      days.set(core.longs(core.must("endurance", from, n), n), from);
      if (!await more()) return null;
    }
    return days;
  }

  // The other methods that the weather allows, one ledger each.
  async function band(job, more) {
    const list = [];
    for (let m = 1; m < core.call("methods"); m++) {
      if (m === job.report.method) continue;
      const at = core.call("band", m);
      if (at) list.push({ title: core.say("method_text", m, 1), totals: core.read("period", at) });
      if (!await more()) return null;
    }
    return list;
  }

  const whole = (rows) => rows.filter((r) => r.complete);

  // Top-up and drop of the 52 weeks of a year, over the years.
  function typicalWeeks(job) {
    const lists = new Map();
    for (const w of whole(job.weeks)) {
      if (w.week > 52) continue;
      if (!lists.has(w.week)) lists.set(w.week, []);
      lists.get(w.week).push(w);
    }
    return Array.from(lists.keys()).sort((a, b) => a - b).map((week) => {
      const list = lists.get(week), topup = list.map((w) => w.topup), drop = list.map((w) => w.drop_mm);
      return {
        week, years: list.length, from: dateText(list[list.length - 1].first).slice(5), first: list[list.length - 1].first,
        p10: stats.percentile(topup, 10), p50: stats.percentile(topup, 50), p90: stats.percentile(topup, 90),
        mean: stats.mean(topup), drop50: stats.percentile(drop, 50), drop90: stats.percentile(drop, 90),
      };
    });
  }

  // Mean of each calendar month over the whole ones.
  function typicalMonths(job) {
    const out = [];
    for (let month = 0; month < 12; month++) {
      const list = whole(job.months).filter((m) => new Date(m.first * 86400000).getUTCMonth() === month);
      if (!list.length) continue;
      const mean = { month, count: list.length };
      for (const key of Object.keys(list[0])) mean[key] = stats.mean(list.map((m) => m[key]));
      out.push(mean);
    }
    return out;
  }

  // Days to the intake by month of leaving, up to HORIZON: what lasts longer is
  // no worry. The worst is of every start; the percentiles take those with that
  // much weather after them, so that starts near the end do not bend them.
  const HORIZON = 120;
  function enduranceByMonth(job) {
    const days = job.endurance, horizon = Math.min(HORIZON, Math.floor(days.length / 2)), months = new Map();
    days.forEach((d, i) => {
      const month = new Date((job.first + i) * 86400000).getUTCMonth(), lasts = d < 0 ? Infinity : d;
      if (!months.has(month)) months.set(month, { month, worst: Infinity, list: [] });
      const m = months.get(month);
      m.worst = Math.min(m.worst, lasts);
      if (i <= days.length - horizon) m.list.push(Math.min(lasts, horizon + 1));
    });
    const rows = Array.from(months.values()).sort((a, b) => a.month - b.month);
    for (const m of rows) {
      m.p10 = stats.percentile(m.list, 10);
      m.p50 = stats.percentile(m.list, 50);
    }
    return { horizon, rows };
  }

  // As in the runner's file.
  const nine = (x) => units.general(x, 9);

  const headOf = (flow) => (flow === "tank" ? "from_tank" : flow);

  // All columns of the days of the newest run.
  const allDays = () => core.columns("day", core.call("ledger"), core.call("ledger_days"));

  // The daily ledger, as `tarn topup --csv` writes it.
  function csv(job) {
    const d = allDays(), keys = ["rain_mm", "open_water_mm", "grass_mm", "level", "area", "volume", "held", "in_tank"];
    const heads = ["date", "rain_mm", "open_water_mm", "grass_mm", "level_m", "losing_area_m2", "pond_m3",
      "held_m3", "in_rain_tank_m3", "pump_running"].concat(FLOWS.map((f) => headOf(f) + "_m3"), FLOWS.map((f) => headOf(f) + "_lip_mm"));
    const out = [heads.join(",")];
    for (let i = 0; i < job.count; i++) {
      const cells = [dateText(d.day[i])];
      for (const key of keys) cells.push(nine(d[key][i]));
      cells.push(d.flags[i] & FLAGS.running ? "1" : "0");
      for (const f of FLOWS) cells.push(nine(d[f][i]));
      for (const f of FLOWS) cells.push(nine(d[f][i] * 1e3 / job.facts.lip_area));
      out.push(cells.join(","));
    }
    return out.join("\n") + "\n";
  }

  return { run, allDays, periods, endurance, band, whole, typicalWeeks, typicalMonths, enduranceByMonth, csv, dateText };
})();

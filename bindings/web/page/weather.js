// SPDX-License-Identifier: MIT
// The weather file, and the answers that it needs.

const weather = (() => {
  // As on the command line; 'columns' is the page's --map.
  const none = () => ({
    layout: "", units: "", totals: "", latitude: NaN, elevation: NaN, windHeight: NaN, bridge: 0, dryGaps: false,
    date: "", format: "", columns: {},
  });
  const state = { name: "", bytes: null, answers: none() };
  const TOTALS = ["missing", "last", "spread"];

  function setMap(a) {
    core.call("map");
    for (const name of ["layout", "units", "date", "format"]) if (a[name]) core.must("map_text", name, a[name]);
    if (a.totals) core.must("map_number", "totals", TOTALS.indexOf(a.totals));
    const numbers = { latitude: a.latitude, elevation: a.elevation, wind_height: a.windHeight };
    for (const name of Object.keys(numbers)) {
      if (!Number.isNaN(numbers[name])) core.must("map_number", name, numbers[name]);
    }
    for (const column of Object.keys(a.columns)) {
      core.must("map_column", column, a.columns[column].name, a.columns[column].unit || "");
    }
  }

  // Reads a file by the answers to its questions; throws what the runner would
  // say.
  function readFrom(file) {
    const a = Object.assign(none(), file.answers);
    setMap(a);
    core.lend(file.bytes, (at, count) => core.must("read", file.name, at, count));
    if (a.bridge > 0 || a.dryGaps) core.must("fill", file.name, a.bridge, a.dryGaps ? 1 : 0);
  }

  const read = () => readFrom(state);

  function open(name, bytes, answers) {
    state.name = name;
    state.bytes = bytes;
    state.answers = Object.assign(none(), answers);
  }

  // Words of the message to the answer that it asks for.
  const HINTS = [
    ["of no layout", "columns"], ["carries no unit", "columns"],
    ["units =", "units"], ["totals =", "totals"], ['rain = "zero"', "dryGaps"], ["interpolate", "bridge"],
    ["fill the gap", "bridge"], ["latitude", "latitude"], ["layout", "columns"], ["columns", "columns"],
    ["rain", "columns"],
  ];
  function asksFor(message) {
    const hint = HINTS.find((h) => message.includes(h[0]));
    return hint ? hint[1] : "columns";
  }

  // Headings of the file, for the form that maps them; a plain look, no reading.
  function headings() {
    const text = new TextDecoder().decode(state.bytes.subarray(0, 20000));
    const lines = text.replace(/^\ufeff/, "").split(/\r?\n/).filter((l) => l.trim());
    const commas = (l) => (l.match(/,/g) || []).length;
    const most = Math.max(...lines.slice(0, 40).map(commas), 0);
    const head = lines.find((l) => commas(l) === most) || "";
    return {
      names: head.split(",").map((h) => h.trim().replace(/^"|"$/g, "")).filter(Boolean),
      sample: (lines[lines.indexOf(head) + 1] || "").split(",").map((h) => h.trim().replace(/^"|"$/g, "")),
    };
  }

  function columnList() {
    return Array.from({ length: core.call("columns") }, (_, c) => ({
      name: core.say("column_text", c, 0), unit: core.say("column_text", c, 1), meaning: core.say("column_text", c, 2),
      units: core.say("column_text", c, 3).split(", "),
    }));
  }

  function summaries() {
    return columnList().map((column, c) => Object.assign(column, core.read("summary", core.call("summary", c))))
      .filter((s) => s.present > 0);
  }

  function notes() {
    const list = [];
    for (let i = 0, note; (note = core.say("note", i)) !== null; i++) list.push(note);
    return list;
  }

  const days = () => core.call("weather_days");
  const first = () => core.call("weather_first");

  return { state, open, read, readFrom, asksFor, headings, columnList, summaries, notes, days, first };
})();

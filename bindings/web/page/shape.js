// SPDX-License-Identifier: MIT
// A description from elsewhere (a file, a link, the browser's memory) in the shape that the form
// can show: what has another one is left out, and told.

function shaped(given, sections) {
  const told = [], isTable = (v) => typeof v === "object" && v !== null && !Array.isArray(v);
  const bySection = new Map(sections.map((s) => [s.section, s]));
  const drop = (at, name, path, wanted) => {
    told.push(`${path} is left out: ${wanted} is expected there, not ${JSON.stringify(at[name]).slice(0, 40)}`);
    delete at[name];
  };
  function walk(at, section, path) {
    const { rows = [], beside = [] } = bySection.get(section) || {};
    for (const name of Object.keys(at)) {
      const b = beside.find((x) => x.name === name), row = rows.find((x) => x.name === name), value = at[name], here = path + name;
      if (value === null) drop(at, name, here, "a value");
      else if (row && isTable(value)) drop(at, name, here, "one value");
      else if (b && b.kind === "table" && Array.isArray(value) && !value.length) at[name] = {};
      else if (b && b.kind === "table") { if (isTable(value)) walk(value, b.of, here + "."); else drop(at, name, here, "a section"); }
      else if (b && b.kind === "tables") {
        if (!Array.isArray(value) || !value.every(isTable)) drop(at, name, here, "a list of sections");
        else value.forEach((v, i) => walk(v, b.of, `${here}[${i + 1}].`));
      } else if (b && b.kind === "names" && !Array.isArray(value)) drop(at, name, here, "a list");
      else if (b && ["text", "word", "date"].includes(b.kind) && typeof value === "object") drop(at, name, here, "a text");
    }
  }
  if (!isTable(given)) return { pond: null, told: ["This is no description of a pond."] };
  walk(given, "", "");
  return { pond: given, told };
}

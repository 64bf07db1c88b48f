// SPDX-License-Identifier: MIT
// What is refused, in this page's words: the field by its label, figures in the
// unit and from the mark that its entry has, answers by their place in the form.

const words = (() => {
  const short = (x, unit) => (x / unit.factor === 0 ? "0" : String(Number((x / unit.factor).toPrecision(4))));

  // How a field's entry counts: { unit, of(si), after }; levels count downwards.
  function entryOf(field, si) {
    const { LEVELS, LEVEL_WORDS, top } = form.levels, level = LEVELS.includes(field);
    const unit = units.asked(level ? "level" : field, si), from = field === "lip" ? top() : app.pond.lip;
    if (!level) return { unit, of: (x) => x, after: "" };
    return { unit, down: true, of: (x) => from - x, after: ` ${LEVEL_WORDS[field][1].replace(/.*, |;.*/g, "")}` };
  }

  // "must be 0.1 to 20 m, got 50" and the like.
  function range(text, field, si) {
    const m = /^must be (\S+) to (\S+?)(?: \S+)?, got (\S+)$/.exec(text);
    if (!m) return null;
    const e = entryOf(field, si), [lo, hi, got] = m.slice(1).map(Number), say = (x) => short(e.of(x), e.unit), unit = e.unit.label ? " " + e.unit.label : "";
    const bound = e.down ? `at ${got < lo ? `most ${say(lo)}` : `least ${say(hi)}`}` : `${say(lo)} to ${say(hi)}`;
    return `must be ${bound}${unit}${e.after}, got ${say(got)}${unit}`;
  }

  function rowOf(field) {
    const at = field.lastIndexOf("."), section = at < 0 ? "" : field.slice(0, at);
    return FIELDS.some((s) => s.section === section) ? fields.row(section, field.slice(at + 1)) : undefined;
  }

  // Shelves have no field of their own in the library's words.
  function shelf(message) {
    const unit = units.asked("basin.shelves", "m");
    return message.replace(/^basin\.shelves(\.\w+ \[m\])?/, (_, name) => (name ? "shelf, " + name.slice(1, -4) : "The basin,"))
      .replace(/\b(between|and|above|be|to|got) ([\d.]+)( m\b)?/g, (_, word, x) => `${word} ${short(Number(x), unit)} ${unit.label}`);
  }

  // A mistake of the pond: { label, text }, both as the form has them.
  function pond(error) {
    const { message, field } = error, box = field && form.boxOf(field), row = box && rowOf(field);
    if (message.startsWith("basin.shelves")) return { label: "", text: shelf(message) };
    if (!row || !message.startsWith(field)) return { label: "", text: message };
    const text = message.slice(field.length).replace(/^ \[.*?\]/, "").trim(), e = entryOf(field, row.unit);
    const said = range(text, field, row.unit) ||
      text.replace(/([-\d.e]+) m\b/g, (_, x) => `${short(e.of(Number(x)), e.unit)} ${e.unit.label}`).replace(/\blip\b/g, "overflow") + e.after;
    const group = box.closest(".group").querySelector("summary, h4").textContent;
    return { label: `${group}, ${form.labelOf(box)}: `, text: said };
  }

  // ---- the weather file ---------------------------------------------------------

  // What the program is told in its files, and what this page asks instead.
  const ASKS = [
    [/map its columns \(columns = .*?\)\./, "say which column is which."],
    [/say units = "standard"(.*?), "metric"(.*?) or "tenths"(.*?),/, "choose its units (standard$1, metric$2 or tenths$3),"],
    [/or say units = \{.*?\} with one of/, "or choose its unit:"],
    [/say rain = "zero" to take missing days as dry/, "missing days can be taken as dry"],
    [/units\.(\w+) is not known, the file does not say it/, "the file does not say the unit of $1"],
    [/evaporation\.latitude/, "the latitude"],
    [/evaporation\.elevation/, "the elevation"],
  ];

  // 'answer' is the label of that which the message asks for.
  function weather(message, answer) {
    const asked = ASKS.find(([found]) => found.test(message));
    if (asked) return `${message.replace(asked[0], asked[1])} (Below: How the file is read, ${answer}.)`;
    return message + (/\b\w+ = ("|\d|false)/.test(message) ? " (Such words belong in a --map file of the program; this page reads the file once it is corrected.)" : "");
  }

  return { pond, weather };
})();

// SPDX-License-Identifier: MIT
// The bed's sliders: what they set, and between which values (SI).

const SLIDERS = [["bed.flow", 2e-5, 4e-3], ["bed.length", 0.3, 6], ["bed.width", 0.3, 8], ["bed.cover", 0, 0.3], ["fish.mass", 0, 40], ["water.temp", 2, 30]];

function sliders() {
  $("sliders").replaceChildren(...SLIDERS.map(([path, low, high]) => {
    const [section, name] = path.split("."), row = app.form.sections.find((s) => s.section === section).rows.find((r) => r.name === name);
    const asked = units.asked(path, row.unit), given = (app.pond[section] || {})[name], id = "s-" + section + "-" + name;
    const out = element("output", { for: id }), bend = low > 0 && high / low > 30;
    const place = (si) => (bend ? Math.log(si / low) / Math.log(high / low) : (si - low) / (high - low)) * 1000;
    const input = element("input", { type: "range", id, min: 0, max: 1000, step: 1, oninput: () => {
      const at = Number(input.value) / 1000, si = bend ? low * (high / low) ** at : low + (high - low) * at;
      app.pond[section] = app.pond[section] || {};
      app.pond[section][name] = si;
      tell(si);
      changed(0, 150);
    } });
    const tell = (si) => { out.textContent = si === undefined ? "not said" : `${Number(units.inUnit(si, asked).toPrecision(3))} ${asked.label}`; };
    input.value = given === undefined ? 0 : Math.round(place(given));
    tell(given);
    return element("div", { class: "slider" }, element("div", { class: "top" }, element("label", { for: id }, named(section) + " " + named(name)), out),
      element("p", { class: "what" }, row.meaning), input);
  }));
}

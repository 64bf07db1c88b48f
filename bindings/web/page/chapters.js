// SPDX-License-Identifier: MIT
// The chapters: their table, the tabs, and the bar that leads to the answers.

// Chapters: their command, the files it takes (? may be left out), their saves.
const CHAPTERS = {
  water: { command: "topup", takes: ["pond", "weather"], saves: { report: "html", csv: "csv" } },
  bed: { command: "bed", takes: ["pond"], saves: { report: "html", csv: "csv", drawing: "svg" } },
  sheet: { command: "sheet", takes: ["pond", "weather?"], saves: { report: "html" } },
  leak: { command: "leak", takes: ["pond", "weather", "log"], saves: { report: "html", svg: "svg" } },
  commission: { command: "commission", takes: ["pond", "measured"], saves: { report: "html" } },
  whatif: { command: "whatif", takes: ["pond", "weather", "study"], saves: { report: "html", csv: "csv" } },
};
app.due = new Set(Object.keys(CHAPTERS));

function turnTo(name) {
  if (app.chapter === "bed" && name !== "bed") app.pondForm.show(app.pond);
  if (CHAPTERS[app.chapter] && !app.answers[app.chapter].over) app.due.add(app.chapter);
  app.chapter = name;
  for (const tab of document.querySelectorAll('[role="tab"]')) {
    const mine = tab.id === "tab-" + name;
    tab.setAttribute("aria-selected", String(mine));
    tab.tabIndex = mine ? 0 : -1;
    $(tab.getAttribute("aria-controls")).hidden = !mine;
  }
  if (app.due.has(name)) ask(name);
  peek();
}

// On a narrow screen a bar at the bottom leads to the answers while none is in sight.
const inSight = new Set();
function peek() {
  const right = $(app.chapter + "-right");
  $("peek").hidden = !right || inSight.has(right) || !app.answers[app.chapter] || !app.answers[app.chapter].chapters.size;
  if (right) $("peek").href = "#" + right.id;
}

function watch() {
  const observer = new IntersectionObserver((entries) => {
    for (const e of entries) e.isIntersecting ? inSight.add(e.target) : inSight.delete(e.target);
    peek();
  });
  for (const right of document.querySelectorAll(".right")) observer.observe(right);
}

function tabs() {
  const all = Array.from(document.querySelectorAll('[role="tab"]'));
  for (const tab of all) tab.addEventListener("click", () => turnTo(tab.id.slice(4)));
  document.querySelector('[role="tablist"]').addEventListener("keydown", (e) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[e.key];
    if (!step) return;
    const next = all[(all.indexOf(document.activeElement) + step + all.length) % all.length];
    next.focus();
    turnTo(next.id.slice(4));
  });
}

function chapterForms() {
  for (const [name, c] of Object.entries(CHAPTERS)) {
    app.options[name] = {};
    app.answers[name] = new Answers($(name + "-answers"));
    optionForm($(name + "-options"), optionsOf(name), app.options[name], () => { app.due.add(name); soon(DEBOUNCE); });
    $(name + "-saves").append(...Object.entries(c.saves).map(([option, ending]) => element("button", { type: "button", id: `${name}-save-${option}`,
      onclick: () => saveAnswers(name, option, ending) }, `Save the ${{ report: "report", csv: "table (CSV)", drawing: "cross-section (SVG)", svg: "figure (SVG)" }[option]}`)));
  }
}

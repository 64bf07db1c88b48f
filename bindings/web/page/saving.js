// SPDX-License-Identifier: MIT
// What leaves the page: files to save, and what the browser remembers.

const KEPT = "tarn.pond";

function keep() {
  try { localStorage.setItem(KEPT, JSON.stringify({ pond: app.pond, system: units.system, fresh: app.fresh, sample: app.sample, assumed: app.questions.assumed })); } catch (error) { /* no room: not kept */ }
}

function download(name, content) {
  const url = URL.createObjectURL(new Blob([content])), a = element("a", { href: url, download: name });
  a.click();
  setTimeout(() => URL.revokeObjectURL(url), 1000);
}

const slug = () => (app.pond.name || "pond").toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "pond";

async function save(args, path, name) {
  const typed = app.questions.typed() || app.pondForm.typed();
  if (typed) { refuse("Not saved. " + typed); return; }
  program.put("pond.json", JSON.stringify(app.pond));
  const { bytes, mistake } = await program.write(args, path);
  refuse(mistake ? "Not saved. " + mistake : "");
  if (bytes) download(name, bytes);
}

function saveAnswers(name, option, ending) {
  const { args, wants } = lineOf(name);
  if (wants) { refuse("Not saved. " + WANTS[wants]); return; }
  save(args.concat("--" + option, "saved." + ending), "saved." + ending, `${slug()}-${name}.${ending}`);
}

// SPDX-License-Identifier: MIT
// The answers as one file that needs nothing else: no script, no address.

const report = (() => {
  // The chapters, fresh from the description.
  function refresh() {
    bed.refresh();
    logbook.refresh();
    leak.refresh();
  }

  // Those of which something can be told.
  function chapters() {
    return [["Water", water.html(app.job)], ["Bed", bed.html()], ["Falling level", logbook.html() + leak.html()]].filter((c) => c[1]);
  }

  // What only a live page can do is left out.
  function still(html) {
    const template = document.createElement("template");
    template.innerHTML = html;
    for (const live of template.content.querySelectorAll("button, .zoom, .files")) live.remove();
    for (const named of template.content.querySelectorAll("[id]")) named.removeAttribute("id");
    const box = document.createElement("div");
    box.append(template.content);
    return box.innerHTML;
  }

  function source(name) {
    const made = `Written on ${new Date().toISOString().slice(0, 10)} by Tarn ${core.say("version")}` +
      (weather.state.read ? `, on the weather of ${weather.state.name}.` : "; no weather was read.");
    const body = chapters().map(([title, html]) => `<section class="chapter"><h2>${title}</h2>${still(html)}</section>`).join("\n");
    return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${esc(name)}: report</title>
<style>
${document.getElementById("style").textContent}
</style>
</head>
<body class="report">
<main class="leaf">
<header><h1>${esc(name)}</h1><p class="note">${esc(made)}</p></header>
${body}
<section class="chapter"><h2>The description</h2><p class="note">As the page and the program open it again: save it as a file that ends in .json.</p>
<details><summary>JSON, in SI units</summary><pre>${esc(files.toJson(app.pond))}</pre></details></section>
</main>
<footer><p>An estimate from weather and sizes; a meter and a ruler on the pond itself are better. From weather alone nobody can say that a pond leaks.</p></footer>
</body>
</html>
`;
  }

  // Drawn for paper: the same on every screen.
  function save() {
    const name = app.pond.name || "Pond";
    document.documentElement.dataset.ink = "print";
    try {
      files.save(files.slug(app.pond.name) + "-report.html", source(name), "text/html");
    } finally {
      delete document.documentElement.dataset.ink;
    }
  }

  return { save, refresh };
})();

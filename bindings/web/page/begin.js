// SPDX-License-Identifier: MIT
// Puts the page's script in its place; the policy admits the one whose digest it has.

Promise.resolve(document.getElementById("script").textContent).then(unpacked).then((bytes) => {
  const script = document.createElement("script");
  script.textContent = new TextDecoder().decode(bytes);
  document.body.append(script);
}).catch((error) => {
  const refused = document.getElementById("refused");
  refused.textContent = `This page cannot begin here (${error.message}). It needs a browser of 2023 or later, and the whole file.`;
  refused.hidden = false;
});

// SPDX-License-Identifier: MIT
// The way back: every description that was on the page, whole, with what is known of it.

const past = [], future = [], MOST_BACK = 200;
let present = "";

const stateNow = () => JSON.stringify({ pond: app.pond, fresh: app.fresh, sample: app.sample, assumed: app.questions.assumed });

// Where the description is another one than before, the one before can be had back.
function remember() {
  const now = stateNow();
  if (now !== present) {
    if (present) past.push(present);
    if (past.length > MOST_BACK) past.shift();
    present = now;
    future.length = 0;
  }
  $("undo").disabled = !past.length;
  $("redo").disabled = !future.length;
}

function goTo(from, to) {
  remember();
  if (!from.length) return;
  to.push(present);
  present = from.pop();
  const { pond, ...known } = JSON.parse(present);
  note([]);
  setPond(pond, known);
}

function watchHistory() {
  $("undo").addEventListener("click", () => goTo(past, future));
  $("redo").addEventListener("click", () => goTo(future, past));
  document.addEventListener("keydown", (e) => {
    if (!(e.ctrlKey || e.metaKey) || e.altKey || e.target.matches('input[type="text"], textarea')) return;	// a text has its own
    const key = e.key.toLowerCase(), back = key === "z" && !e.shiftKey, forth = key === "y" || (key === "z" && e.shiftKey);
    if (!back && !forth) return;
    e.preventDefault();
    if (back) goTo(past, future); else goTo(future, past);
  });
}

// SPDX-License-Identifier: MIT
// Holds the program and answers the page's questions, one after the other:
//
//     { files: { path: bytes }, id, chapter, ask: [command, argument, ...], rest }
//     { files, id, call: [function of page.lua, argument, ...] }
//
// A newer question ends an older one, but for what writes a file (the chapter
// "files"); "rest" is how many ms a hand has to move on before figures are drawn.

const SLICE = 12;			// ms, before the page hears and is heard
let module, files, host, said = "";
const waiting = [];
let at = null;				// the question under way

// The text that a function of page.lua returns, read as JSON; null if none.
function call(texts) {
  if (!host) {
    host = new Host({ files, post: (text) => { said = text; } });
    host.open(module);
  }
  said = "";
  const failed = host.call(...texts);
  if (!failed) return said ? JSON.parse(said) : null;
  host = null;
  throw new Error(said);
}

function step() {
  const items = [], until = performance.now() + SLICE;
  try {
    do {
      const item = call(["step"]);
      if (!item) break;
      if (item.kind === "rest") { at.pause = at.rest; break; }
      items.push(item);
      if (item.kind === "end") {
        item.files = item.files.map((path) => ({ path, bytes: files.get(path) }));
        for (const { path } of item.files) files.delete(path);
      }
      if (item.kind === "end" || item.kind === "mistake") at.over = true;
      if (items.length === 2 && at.first) break;	// the answer itself comes at once
    } while (!at.over && performance.now() < until);
  } catch (error) {
    host = null;
    at.over = true;
    items.push({ kind: "mistake", status: 1, message: error.message });
  }
  at.first = false;
  postMessage({ id: at.id, chapter: at.chapter, items });
  if (at.over) at = null;
}

const turn = new MessageChannel();
turn.port1.onmessage = () => {
  const call_at = at ? waiting.findIndex((q) => q.call) : 0;	// a call is answered between two steps
  if (waiting.length && call_at >= 0) {
    const next = waiting.splice(call_at, 1)[0];
    try {
      if (next.call) postMessage({ id: next.id, result: call(next.call) });
      else {
        at = Object.assign(next, { first: true });
        call(["start", ...next.ask]);
      }
    } catch (error) {
      postMessage({ id: next.id, chapter: next.chapter, result: { mistake: error.message }, items: [{ kind: "mistake", status: 1, message: error.message }] });
      if (!next.call) at = null;
    }
  } else if (at) step();
  if (at && at.pause && !waiting.length) setTimeout(() => turn.port2.postMessage(0), at.pause);
  else if (at || waiting.length) turn.port2.postMessage(0);
  if (at) at.pause = 0;
};

function take(message) {
  for (const [path, bytes] of Object.entries(message.files || {})) files.set(path, bytes);
  const ended = (q) => message.chapter && message.chapter !== "files" && q.chapter && q.chapter !== "files";
  if (at && ended(at)) at = null;
  waiting.splice(0, waiting.length, ...waiting.filter((q) => !ended(q)));
  waiting.push(message);
  turn.port2.postMessage(0);
}

onmessage = async ({ data }) => {
  const [program, texts] = await Promise.all([unpacked(data.program), unpacked(data.files)]);
  files = new Map(Object.entries(JSON.parse(new TextDecoder().decode(texts))).map(([path, text]) => [path, new TextEncoder().encode(text)]));
  module = await WebAssembly.compile(program);
  onmessage = (event) => take(event.data);
  postMessage({ ready: true });
};

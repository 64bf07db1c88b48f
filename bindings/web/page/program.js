// SPDX-License-Identifier: MIT
// The program, as the page sees it: questions go to the worker, items come back.

const program = (() => {
  const text = (id) => document.getElementById(id).textContent;
  const heard = new Map();		// id -> what to do with its messages
  const newest = new Map();		// chapter -> id
  const open = new Map();		// id without its last message -> its chapter
  let last = 0, files = {};

  let worker;
  const ready = unpacked(text("worker")).then((source) => new Promise((done) => {
    worker = new Worker(URL.createObjectURL(new Blob([source], { type: "text/javascript" })));
    worker.postMessage({ program: text("program"), files: text("files") });
    worker.onmessage = ({ data }) => {
      if (data.ready) { done(); return; }
      if (!data.items || data.items.some((item) => item.kind === "end" || item.kind === "mistake")) open.delete(data.id);
      if (data.chapter && newest.get(data.chapter) !== data.id) return;
      const hear = heard.get(data.id);
      if (hear) hear(data);
    };
  }));

  function send(message, hear) {
    message.id = ++last;
    heard.set(message.id, hear);
    const ends = (chapter) => chapter && chapter !== "files";		// as in worker.js
    if (ends(message.chapter)) for (const [id, chapter] of open) if (ends(chapter)) open.delete(id);
    open.set(message.id, message.chapter);
    if (message.chapter) {
      heard.delete(newest.get(message.chapter));
      newest.set(message.chapter, message.id);
    }
    message.files = files;
    files = {};
    ready.then(() => worker.postMessage(message));
  }

  // A file of the program's, known to it from the next question on.
  function put(path, content) {
    files[path] = typeof content === "string" ? new TextEncoder().encode(content) : content;
  }

  // A function of page.lua; promise of what it returns.
  function call(...texts) {
    return new Promise((done) => send({ call: texts }, (data) => { heard.delete(data.id); done(data.result); }));
  }

  // A command line; figures wait "rest" ms for a newer one; hear(item) for each item of its answer.
  function ask(chapter, args, rest, hear) {
    send({ chapter, ask: args, rest }, (data) => data.items.forEach(hear));
  }

  // A command line that writes a file: promise of { bytes } or { mistake }.
  function write(args, path) {
    return new Promise((done) => send({ chapter: "files", ask: args }, (data) => {
      for (const item of data.items) {
        if (item.kind === "mistake") done({ mistake: item.message });
        if (item.kind === "end") done({ bytes: (item.files.find((f) => f.path === path) || {}).bytes });
      }
    }));
  }

  return { ready, put, call, ask, write, idle: () => open.size === 0 };
})();

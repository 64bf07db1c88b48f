// SPDX-License-Identifier: MIT
// A browser compiles code well once it has run a while: the sample is read,
// reckoned and drawn out of sight until the first file comes.

const warm = (() => {
  const ROUNDS = 3;		// more brought nothing

  const idle = () => new Promise((done) => (window.requestIdleCallback ? requestIdleCallback(done, { timeout: 300 }) : setTimeout(done, 50)));

  function draw(job) {
    const box = document.createElement("div");
    box.innerHTML = water.html(job);
    charts.level(document.createElement("div"), job);
    charts.forget();
  }

  async function start(file) {
    const steps = [() => weather.readFrom(file), () => ledger.run(app.pond), draw];
    for (let round = 0; round < ROUNDS; round++) {
      let made;
      for (const step of steps) {
        await idle();
        if (weather.state.bytes) return;
        try {
          made = step(made);
        } catch (e) {
          if (e instanceof Mistake) return;		// a remembered pond that does not hold together
          throw e;
        }
      }
    }
  }

  return { start };
})();

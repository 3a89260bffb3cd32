// The engine, in workers: one is always at hand for what takes a moment (ask), one works on what takes longer (work), a
// thing at a time, and is put away where nobody waits for it any longer. Once it has been, one more stands ready to take
// its place, for an engine takes a while to start.

const engineSource = URL.createObjectURL(new Blob([by("engine").textContent], { type: "text/javascript" }));
const engineSilent = { fault: "the engine does not start in this browser; try a newer one" };

class Link {
  #waiting = new Map();
  #asked = 0;
  #worker = null;
  #ready = null;

  ask(request, onProgress = () => {}) {
    this.start();
    const id = ++this.#asked;
    this.#worker.postMessage({ id, request });
    return new Promise((resolve) => this.#waiting.set(id, { resolve, onProgress }));
  }

  start() {
    this.#worker ??= this.#started();
  }

  // Nothing that was asked is answered any more.
  stop() {
    this.#worker?.terminate();
    this.#worker = this.#ready;
    this.#waiting.clear();
    this.#ready = this.#started();
  }

  #started() {
    const worker = new Worker(engineSource);
    worker.onmessage = ({ data: { id, answer, progress } }) => {
      if (progress) return this.#waiting.get(id).onProgress(progress);
      this.#waiting.get(id).resolve(answer);
      this.#waiting.delete(id);
    };
    worker.onerror = () => {
      for (const { resolve } of this.#waiting.values()) resolve(engineSilent);
      this.#waiting.clear();
    };
    return worker;
  }
}

const atHand = new Link(), longWork = new Link();
atHand.start();
longWork.start();
let lastWork = Promise.resolve();

// A request as src/page/binding.cpp takes it; its answer, or {refused} or {fault}, one line.
const ask = (request) => atHand.ask(request);

// The same for what may take seconds, after the work before it. {stopped: true} once `signal` (an AbortSignal) says so.
// onProgress([done, of]) is told how far work in pieces is.
function work(request, signal, onProgress) {
  const turn = lastWork.then(() => workNow(request, signal, onProgress));
  lastWork = turn;
  return turn;
}

function workNow(request, signal, onProgress) {
  const stopped = { stopped: true };
  if (signal?.aborted) return stopped;
  return new Promise((resolve) => {
    const giveUp = () => {
      longWork.stop();
      resolve(stopped);
    };
    signal?.addEventListener("abort", giveUp, { once: true });
    longWork.ask(request, onProgress).then((answer) => {
      signal?.removeEventListener("abort", giveUp);
      resolve(answer);
    });
  });
}

// The worker that plans: sends it what changed, hands on what it answers, and
// starts it anew where it has stopped.

/** @typedef {import('./types').Core} Core
 *  @typedef {import('./boot.js').Programs} Programs
 *  @typedef {{parts: number, seconds: number, top: number, problem: string}} Figures */

export class Planner {
  /** @type {Core} */
  #core;
  /** @type {Programs} */
  #programs;
  /** @type {Worker | null} */
  #worker = null;
  #falls = 0;
  #due = false;
  /** @type {(words: string) => void} */
  #say;
  #ask = 0;
  /** @type {(figures: Figures | null) => void} */
  #weighed = () => {};

  /** @param {Core} core
   * @param {Programs} programs
   * @param {(words: string) => void} say */
  constructor(core, programs, say) {
    this.#core = core;
    this.#programs = programs;
    this.#say = say;
    this.#start();
  }

  #start() {
    const worker = new Worker(new URL('../worker/worker.js', import.meta.url));
    this.#worker = worker;
    worker.onmessage = (event) => this.#hear(event.data);
    worker.onerror = (event) => {
      event.preventDefault();
      this.#fell(event.message || 'it could not be started');
    };
    const at = (/** @type {string} */ path) => new URL(path, document.baseURI).href;
    worker.postMessage({ kind: 'start', glue: at(this.#programs.glue), wasm: at(this.#programs.worker) });
    this.#core.forgetWorker();
    this.send();
  }

  /** The worker has stopped; a new one takes over, but not for ever.
   * @param {string} why */
  #fell(why) {
    this.#worker?.terminate();
    this.#worker = null;
    this.#weighed(null);
    if (++this.#falls > 3) {
      this.#say(`The planning has stopped (${why}). Your drawing is kept; reload the page to go on.`);
      return;
    }
    this.#start();
  }

  /** Sends what changed, after what is being done now and before the next frame. */
  soon() {
    if (this.#due) return;
    this.#due = true;
    queueMicrotask(() => {
      this.#due = false;
      this.send();
    });
  }

  /** Sends what changed since the last time, if anything. */
  send() {
    if (!this.#worker) return;
    const request = this.#core.planRequest();
    if (request) this.#worker.postMessage({ kind: 'plan', request }, [request.buffer]);
  }

  /** What the open sprite would come to after a command of its stack, which isn't
   * run; null where something else was asked for since.
   * @param {string} name
   * @param {unknown} args
   * @returns {Promise<Figures | null>} rejected where the command can't be run */
  async weigh(name, args) {
    const ask = ++this.#ask;
    this.#weighed(null);
    const request = this.#core.weighing(name, JSON.stringify(args));
    if (typeof request === 'string') throw new Error(JSON.parse(request).error);
    return new Promise((resolve) => {
      this.#weighed = resolve;
      if (this.#worker) this.#worker.postMessage({ kind: 'weigh', ask, request }, [request.buffer]);
      else resolve(null);
    });
  }

  /** @param {any} message */
  #hear(message) {
    switch (message.kind) {
      case 'plan':
        this.#falls = 0;
        this.#core.planArrived(message.summary);
        break;
      case 'weighed':
        if (message.ask === this.#ask) this.#weighed(JSON.parse(this.#core.weighed(message.summary)));
        break;
      case 'fell':
        this.#fell(message.words);
    }
  }
}

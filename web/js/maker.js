// The worker that makes the cutting files: loaded when the first ones are
// wanted, kept for the next.

/** @typedef {import('./types').Core} Core
 *  @typedef {import('./boot.js').Programs} Programs */

export class Maker {
  /** @type {Core} */
  #core;
  /** @type {Programs} */
  #programs;
  /** @type {Worker | null} */
  #worker = null;
  /** @type {Map<number, {resolve: (data: Uint8Array) => void, reject: (error: Error) => void}>} */
  #orders = new Map();
  #last = 0;

  /** @param {Core} core
   * @param {Programs} programs */
  constructor(core, programs) {
    this.#core = core;
    this.#programs = programs;
  }

  /** The bundle of the project as it is now.
   * @returns {Promise<Uint8Array>} */
  bundle() {
    return new Promise((resolve, reject) => {
      const worker = this.#worker ?? this.#start();
      const id = ++this.#last;
      this.#orders.set(id, { resolve, reject });
      const project = this.#core.projectFile();
      worker.postMessage({ kind: 'bundle', id, project }, [project.buffer]);
    });
  }

  /** A worker of its own with the same program, for whoever ends it.
   * @returns {Worker} */
  another() {
    const worker = new Worker(new URL('../worker/worker.js', import.meta.url));
    const at = (/** @type {string} */ path) => new URL(path, document.baseURI).href;
    worker.postMessage({ kind: 'start', glue: at(this.#programs.glue), wasm: at(this.#programs.maker) });
    return worker;
  }

  /** @returns {Worker} */
  #start() {
    const worker = this.another();
    this.#worker = worker;
    worker.onmessage = (event) => this.#hear(event.data);
    worker.onerror = (event) => {
      event.preventDefault();
      this.#fell(event.message || 'it could not be started');
    };
    return worker;
  }

  /** @param {any} message */
  #hear(message) {
    if (message.kind === 'fell') {
      this.#fell(message.words);
      return;
    }
    const order = this.#orders.get(message.id);
    this.#orders.delete(message.id);
    if (message.kind === 'bundle') order?.resolve(message.data);
    else order?.reject(new Error(message.words));
  }

  /** The worker has stopped; the next order starts a new one.
   * @param {string} why */
  #fell(why) {
    this.#worker?.terminate();
    this.#worker = null;
    const orders = [...this.#orders.values()];
    this.#orders.clear();
    for (const { reject } of orders) reject(new Error(`The cutting files could not be made (${why}). Try again.`));
  }
}

// The worker that lays the sheets and makes the cutting files: loaded when the
// first ones are wanted, kept for the next.

/** @typedef {import('./types').Core} Core
 *  @typedef {import('./boot.js').Programs} Programs */

export class Maker {
  /** @type {Core} */
  #core;
  /** @type {Programs} */
  #programs;
  /** @type {Worker | null} */
  #worker = null;
  /** @type {Map<number, {resolve: (answer: any) => void, reject: (error: Error) => void, stays?: 'stays'}>} */
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
  async bundle() {
    return (await this.order('bundle')).data;
  }

  /** Has something made of the project as it is now.
   * @param {string} kind
   * @param {Record<string, any>} [more]
   * @returns {Promise<any>} */
  order(kind, more = {}) {
    return new Promise((resolve, reject) => this.#send(kind, more, { resolve, reject }));
  }

  /** Has the sheets laid, ever tighter, until enough() or another order for sheets.
   * @param {Record<string, any>} more
   * @param {(answer: any) => void} resolve told of each answer
   * @param {(error: Error) => void} reject
   * @returns {number} its number */
  goOn(more, resolve, reject) {
    return this.#send('sheets', { ...more, on: true }, { resolve, reject, stays: 'stays' });
  }

  /** Ends what goOn began.
   * @param {number} id */
  enough(id) {
    this.#orders.delete(id);
    void this.order('enough').catch(() => {});
  }

  /** @param {string} kind
   * @param {Record<string, any>} more
   * @param {{resolve: (answer: any) => void, reject: (error: Error) => void, stays?: 'stays'}} order */
  #send(kind, more, order) {
    const worker = this.#worker ?? this.#start();
    const id = ++this.#last;
    this.#orders.set(id, order);
    const project = this.#core.projectFile();
    worker.postMessage({ kind, id, project, ...more }, [project.buffer]);
    return id;
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
    if (message.numbers) this.#core.numbersArrived(message.numbers);
    const order = this.#orders.get(message.id);
    if (!order?.stays || message.refused) this.#orders.delete(message.id);
    if (message.refused) order?.reject(new Error(message.refused));
    else order?.resolve(message);
  }

  /** The worker has stopped; the next order starts a new one.
   * @param {string} why */
  #fell(why) {
    this.#worker?.terminate();
    this.#worker = null;
    const orders = [...this.#orders.values()];
    this.#orders.clear();
    for (const { reject } of orders) reject(new Error(`The sheets and cutting files could not be made (${why}). Try again.`));
  }
}

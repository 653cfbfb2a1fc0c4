// Asks a worker of its own for the grid in a picture: one question at a time,
// of those that wait only the newest.

/** @typedef {import('./regrid.js').Found} Found
 *  @typedef {{options: object, resolve: (found: Found) => void, reject: (error: Error) => void}} Question */

export class GridFinder {
  /** @type {Worker} */
  #worker;
  /** @type {Question | null} */
  #asked = null;
  /** @type {Question | null} */
  #waiting = null;

  /** @param {Worker} worker
   * @param {ImageData} picture */
  constructor(worker, picture) {
    this.#worker = worker;
    worker.onmessage = (event) => this.#hear(event.data);
    worker.onerror = (event) => {
      event.preventDefault();
      this.#fell(event.message || 'the worker could not be started');
    };
    const pixels = picture.data.slice();
    worker.postMessage({ kind: 'picture', width: picture.width, height: picture.height, pixels }, [pixels.buffer]);
  }

  /** What is found; rejects with '' where a newer question overtook this one.
   * @param {object} options
   * @returns {Promise<Found>} */
  find(options) {
    return new Promise((resolve, reject) => {
      this.#waiting?.reject(new Error(''));
      this.#waiting = { options, resolve, reject };
      if (!this.#asked) this.#next();
    });
  }

  #next() {
    this.#asked = this.#waiting;
    this.#waiting = null;
    if (this.#asked) this.#worker.postMessage({ kind: 'regrid', id: 0, options: JSON.stringify(this.#asked.options) });
  }

  /** @param {any} message */
  #hear(message) {
    if (message.kind === 'fell') {
      this.#fell(message.words);
      return;
    }
    const question = this.#asked;
    const overtaken = this.#waiting !== null;
    this.#next();
    if (overtaken) question?.reject(new Error(''));
    else if (message.kind === 'regrid') question?.resolve(JSON.parse(message.found));
    else question?.reject(new Error(message.words));
  }

  /** @param {string} why */
  #fell(why) {
    for (const question of [this.#asked, this.#waiting]) question?.reject(new Error(`The search for the grid stopped (${why}): close this and choose the picture again.`));
    this.#asked = this.#waiting = null;
  }

  /** Ends the worker and gives its memory back. */
  end() {
    this.#worker.terminate();
  }
}

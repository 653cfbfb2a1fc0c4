// Asks a worker of its own for the grid in a picture: one question at a time,
// of those that wait only the newest.

/** @typedef {import('./regrid.js').Found} Found
 *  @typedef {{order: object, resolve: (found: any) => void, reject: (error: Error) => void}} Question */

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

  /** What is found: one sprite, or several where these are asked for; rejects with ''
   * where a newer question overtook this one.
   * @param {object} options
   * @returns {Promise<Found[]>} */
  find(options) {
    return this.#ask({ kind: 'regrid', options: JSON.stringify(options) });
  }

  /** The photograph in which a grid was found last, made straight; null where it lay
   * straight.
   * @returns {Promise<ImageData | null>} */
  async straightened() {
    const { pixels, width, height } = await this.#ask({ kind: 'straightened' });
    return pixels ? new ImageData(new Uint8ClampedArray(pixels.buffer), width, height) : null;
  }

  /** @param {object} order
   * @returns {Promise<any>} */
  #ask(order) {
    return new Promise((resolve, reject) => {
      this.#waiting?.reject(new Error(''));
      this.#waiting = { order, resolve, reject };
      if (!this.#asked) this.#next();
    });
  }

  #next() {
    this.#asked = this.#waiting;
    this.#waiting = null;
    if (this.#asked) this.#worker.postMessage({ id: 0, ...this.#asked.order });
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
    else if (message.kind === 'answer') question?.resolve(message);
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

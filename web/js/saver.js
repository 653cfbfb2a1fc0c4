// Saves soon after each change, and at once when the page may go away.

import { store } from './store.js';

/** How long changes are gathered before they are written, ms. */
const pause = 250;

export class Saver {
  /** @type {() => Record<string, any>} */
  #read;
  /** @type {(saved: boolean, problem?: string) => void} */
  #tell;
  #timer = 0;
  #dirty = false;
  /** @type {Promise<void>} */
  #writing = Promise.resolve();

  /** @param {() => Record<string, any>} read what to save, by key
   * @param {(saved: boolean, problem?: string) => void} tell */
  constructor(read, tell) {
    this.#read = read;
    this.#tell = tell;
    document.addEventListener('visibilitychange', () => { if (document.hidden) void this.now(); });
    window.addEventListener('pagehide', () => void this.now());
  }

  /** Something has changed.
   * @param {number} [later] ms more, for what shouldn't be held up */
  soon(later = 0) {
    if (!this.#dirty) this.#tell(false);
    this.#dirty = true;
    this.#timer ||= window.setTimeout(() => void this.now(), pause + later);
  }

  /** Writes what is not yet written. */
  async now() {
    window.clearTimeout(this.#timer);
    this.#timer = 0;
    if (this.#dirty) {
      this.#dirty = false;
      const values = this.#read();
      this.#writing = this.#writing.then(() => store.put(values)).then(
        () => { if (!this.#dirty) this.#tell(true); },
        (error) => {
          this.#dirty = true;
          this.#tell(false, `The drawing can't be kept in this browser (${error?.message ?? error}). Save the project as a file.`);
        },
      );
    }
    await this.#writing;
  }
}

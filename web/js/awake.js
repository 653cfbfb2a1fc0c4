// Keeps the glass lit while parts are put together, where the browser allows it
// (Screen Wake Lock API, W3C).

export class Awake {
  /** @type {() => boolean} */
  #wanted;
  /** @type {WakeLockSentinel | null} */
  #lock = null;
  #asking = false;
  /** 'lit', 'let' go of, or 'refused' by a browser that has no such thing or won't.
   * @type {'lit' | 'let' | 'refused'} */
  is = 'let';
  /** @type {() => void} */
  changed = () => {};

  /** @param {() => boolean} wanted whether it is wanted now */
  constructor(wanted) {
    this.#wanted = wanted;
    // A page that is hidden loses it.
    document.addEventListener('visibilitychange', () => this.see());
  }

  /** Asks for it, or lets go of it, as is wanted now. */
  see() {
    const wanted = this.#wanted() && !document.hidden;
    if (!wanted && this.#lock) {
      void this.#lock.release().catch(() => {});
      this.#lock = null;
    }
    if (!wanted) {
      this.#tell('let');
    } else if (!this.#lock && !this.#asking && this.is !== 'refused') {
      void this.#ask();
    }
  }

  async #ask() {
    this.#asking = true;
    try {
      if (!navigator.wakeLock) throw new Error('unknown');
      const lock = await navigator.wakeLock.request('screen');
      lock.addEventListener('release', () => {
        if (this.#lock !== lock) return;
        this.#lock = null;
        // Taken away while one looks, as when the battery is low: not asked for again at once.
        if (!document.hidden) this.#tell('refused');
      });
      this.#lock = lock;
      this.#tell('lit');
    } catch {
      this.#tell('refused');
    }
    this.#asking = false;
    this.see();
  }

  /** @param {'lit' | 'let' | 'refused'} is */
  #tell(is) {
    if (is === this.is) return;
    this.is = is;
    this.changed();
  }
}

// Holds back the canvas's animation frames until something has changed, so
// that a page at rest costs nothing.

/** A stand-in for requestAnimationFrame that keeps one callback until it is due. */
export class FrameGate {
  /** @type {FrameRequestCallback | null} */
  #held = null;
  #due = false;
  #queued = false;
  /** The canvas needs two frames to start; three leaves one to spare. */
  #free = 3;
  /** The browser's own: at the start of the canvas the window has ours. */
  #real = window.requestAnimationFrame.bind(window);

  /** What the canvas calls in place of requestAnimationFrame.
   * @param {FrameRequestCallback} callback
   * @returns {number} */
  request = (callback) => {
    this.#held = callback;
    if (this.#free > 0) {
      this.#free--;
      this.#due = true;
    }
    if (this.#due) this.#pass();
    return 0;
  };

  /** Lets one frame be drawn; more calls before it is drawn ask for no more. */
  wake = () => {
    if (this.#queued) return;
    this.#due = true;
    this.#pass();
  };

  #pass() {
    const callback = this.#held;
    if (!callback) return;
    this.#held = null;
    this.#due = false;
    this.#queued = true;
    this.#real((time) => {
      this.#queued = false;
      callback(time);
    });
  }
}

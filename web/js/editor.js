// The editor as the page's modules see it: run commands, read the view model,
// hear of changes.

/** @typedef {import('./types').Core} Core
 *  @typedef {import('./types').View} View */

export class Editor {
  /** @type {Core} */
  core;
  /** @type {View} */
  view;
  /** @type {((view: View, editor: Editor) => void)[]} */
  #listeners = [];
  #asked = false;

  /** @param {Core} core */
  constructor(core) {
    this.core = core;
    this.view = JSON.parse(core.panels());
  }

  /** @param {(view: View, editor: Editor) => void} listener called after changes, once for many */
  listen(listener) {
    this.#listeners.push(listener);
    listener(this.view, this);
  }

  /** Something that the page shows may have changed. */
  changed = () => {
    if (this.#asked) return;
    this.#asked = true;
    // After the frame that shows the change on the canvas: that goes first.
    requestAnimationFrame(() => setTimeout(this.#tell, 0));
    setTimeout(this.#tell, 100); // hidden pages get no frames
  };

  #tell = () => {
    if (!this.#asked) return;
    this.#asked = false;
    this.view = JSON.parse(this.core.panels());
    for (const listener of this.#listeners) listener(this.view, this);
  };

  /** What the maker would see now, be it shown already or not: what a key means
   * may depend on what the last one did. */
  get now() {
    return this.#asked ? /** @type {View} */ (JSON.parse(this.core.panels())) : this.view;
  }

  /** Runs a command; throws what the page shows where it fails.
   * @param {string} name
   * @param {unknown} [args]
   * @returns {any} */
  run(name, args) {
    const answer = JSON.parse(this.core.run(name, args === undefined ? '' : JSON.stringify(args)));
    if (answer.error !== undefined) throw new Error(answer.error);
    return answer.result;
  }

  /** What has to be found out before a command can be run: by name, a function
   * of its arguments that gives better ones.
   * @type {Map<string, (args: any) => Promise<any>>} */
  before = new Map();

  /** Runs a command as run does, after what it needs is there.
   * @param {string} name
   * @param {unknown} [args]
   * @returns {Promise<any>} */
  async order(name, args) {
    const before = this.before.get(name);
    return this.run(name, before ? await before(args) : args);
  }

  /** Runs a command for a control: what goes wrong is shown.
   * @param {string} name
   * @param {unknown} [args] */
  do(name, args) {
    try {
      return this.run(name, args);
    } catch (error) {
      say(/** @type {Error} */ (error).message);
      return undefined;
    }
  }
}

let sayTimer = 0;

/** Shows a sentence for a while.
 * @param {string} words */
export function say(words) {
  const place = /** @type {HTMLElement} */ (document.getElementById('say'));
  place.textContent = words;
  clearTimeout(sayTimer);
  sayTimer = window.setTimeout(() => { place.textContent = ''; }, 4000 + words.length * 40);
}

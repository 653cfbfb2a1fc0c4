// The Sheets view: has the sheets laid while it is open, and holds what came.

import { say } from './editor.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./types').Sheets} Model
 *  @typedef {import('./types').SheetPart} Part */

const text = new TextDecoder();

export class Sheets {
  /** @type {Page} */
  page;
  /** @type {Model | null} what is shown; perhaps of an older drawing */
  model = null;
  /** Why there is none. */
  problem = '';
  /** The order for which the search goes on; 0: none. */
  searching = 0;
  /** Numbers of the parts that are picked to be cut again; null while none are picked.
   * @type {string[] | null} */
  picked = null;
  #failed = -1;
  /** @type {Promise<void> | null} */
  #laying = null;
  /** @type {(() => void)[]} */
  #listeners = [];

  /** @param {Page} page */
  constructor(page) {
    this.page = page;
  }

  get stale() {
    return this.model?.revision !== this.page.editor.core.revision();
  }

  /** @param {() => void} listener called whenever other sheets, or none, are there */
  listen(listener) {
    this.#listeners.push(listener);
  }

  #tell() {
    for (const listener of this.#listeners) listener();
  }

  /** Has the sheets of the project as it is now laid; resolved when they are there.
   * @returns {Promise<void>} */
  fresh() {
    this.#laying ??= this.#lay().finally(() => { this.#laying = null; this.#tell(); });
    return this.#laying;
  }

  async #lay() {
    const { core } = this.page.editor;
    this.#tell();
    while (this.stale && this.#failed !== core.revision()) {
      const revision = core.revision();
      if (this.searching) this.page.maker.enough(this.searching);
      this.searching = 0;
      try {
        this.take(await this.page.maker.order('sheets', { revision }));
      } catch (error) {
        this.problem = /** @type {Error} */ (error).message;
        this.#failed = revision;
      }
    }
    if (this.#failed === core.revision()) throw new Error(this.problem);
  }

  /** @param {{model: Uint8Array, places: Uint8Array}} answer */
  take(answer) {
    this.model = JSON.parse(text.decode(answer.model));
    this.problem = '';
    this.#failed = -1;
    if (this.picked) this.picked = this.picked.filter((n) => this.model?.parts.some((p) => p.of === n));
    this.page.editor.core.sheetsArrived(answer.places);
    this.#tell();
  }

  /** Lays what is stale, if anybody looks. */
  soon() {
    if (this.page.editor.view.view === 'Sheets' && !this.#laying && this.stale && this.#failed !== this.page.editor.core.revision()) {
      void this.fresh().catch(() => {});
    }
  }

  get laying() {
    return this.#laying !== null;
  }

  /** Goes on looking for a tighter layout. */
  async search() {
    await this.fresh();
    const revision = this.page.editor.core.revision();
    this.searching = this.page.maker.goOn({ revision }, (answer) => this.take(answer), (error) => {
      this.searching = 0;
      say(error.message);
      this.#tell();
    });
    this.#tell();
  }

  /** Ends the search: keeps what it found, or leaves all as it was.
   * @param {'keep' | 'leave'} what */
  enough(what) {
    this.page.maker.enough(this.searching);
    this.searching = 0;
    if (what === 'keep') this.page.editor.do('keepLayout');
    if (what === 'leave' && this.model) this.model.revision = -1; // as it was is laid again
    this.#tell();
    this.soon();
  }

  /** The part that is pointed at.
   * @returns {Part | null} */
  get pointed() {
    const { sprite, copy, part } = this.page.editor.view.hand.sheets;
    const parts = this.model?.parts.filter((p) => p.copy === copy && p.sprite === sprite) ?? [];
    return parts.find((p) => p.number === part) ?? parts.find((p) => p.of === part) ?? null;
  }

  /** Begins to pick parts that are cut again, or ends it.
   * @param {string[] | null} picked */
  pick(picked) {
    this.picked = picked;
    this.#tell();
  }

  /** Picks a part, or not any more.
   * @param {Part} part */
  toggle(part) {
    if (!this.picked) return;
    this.pick(this.picked.includes(part.of) ? this.picked.filter((n) => n !== part.of) : [...this.picked, part.of]);
  }

  /** Has what is picked cut again. */
  cutPicked() {
    const parts = this.picked?.join(' ') ?? '';
    this.pick(null);
    this.page.editor.do('cutAgain', { parts });
  }

  /** What a part's commands name it by.
   * @param {Part} part */
  static named(part) {
    return { sprite: part.sprite, copy: part.copy, part: part.number };
  }

  /** Where a part would come to lie: the nearest free place.
   * @param {any} args as movePart has them
   * @returns {Promise<any>} the same with a free place */
  async snapped(args) {
    await this.fresh();
    const part = this.model?.parts.find((p) => p.number === args.part && p.copy === args.copy && p.sprite === args.sprite);
    if (!part) throw new Error(`There is no part ${args.part} of ${args.sprite}, copy ${args.copy}, on any sheet.`);
    const want = {
      Sprite: args.sprite, Copy: args.copy, Part: args.part, Stock: part.stock, Sheet: args.sheet,
      X: Math.round(args.x_mm * 1000), Y: Math.round(args.y_mm * 1000), Turn: args.turn, Held: 'moved',
    };
    const answer = await this.page.maker.order('snap', { want: new TextEncoder().encode(JSON.stringify(want)) });
    const got = JSON.parse(text.decode(answer.data));
    return { ...args, x_mm: got.X / 1000, y_mm: got.Y / 1000, turn: got.Turn };
  }

  /** What state() tells of the sheets. */
  state() {
    const { model } = this;
    return {
      stale: this.stale, problem: this.problem, searching: this.searching ? 'searching' : '',
      machine: model?.machine ?? null,
      list: (model?.sheets ?? []).map(({ strokes, ...sheet }) => ({ ...sheet, lines: strokes.length })),
      parts: (model?.parts ?? []).map(({ d, ...part }) => part),
      stocks: model?.stocks ?? [], findings: model?.findings ?? [],
    };
  }
}

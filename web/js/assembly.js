// The Assemble view: has the steps worked out while it is open, goes from step
// to step, and says where parts are.

import { words } from './assemblewords.js';
import { byId } from './dom.js';
import { say } from './editor.js';
import { Awake } from './awake.js';
import { setUpAssembleSide } from './assembleside.js';
import { StepPicture } from './steppicture.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./types').Assembly} Model
 *  @typedef {import('./types').AssemblySprite} Sprite
 *  @typedef {import('./types').AssemblyPart} Part
 *  @typedef {import('./types').AssemblyStep} Step
 *  @typedef {'' | 'out' | 'stuck' | 'lost'} Is
 *  @typedef {{sprite: Sprite, copy: number, step: number, states: Is[], lit: number, placed: Set<number>, now: Step | null}} Build */

const text = new TextDecoder();

export class Assembly {
  /** @type {Page} */
  page;
  /** @type {Model | null} what is shown; perhaps of an older drawing */
  model = null;
  /** Why there is none. */
  problem = '';
  #failed = -1;
  /** @type {Promise<void> | null} */
  #working = null;
  /** @type {Promise<void> | null} */
  #laying = null;
  /** @type {(() => void)[]} */
  #listeners = [];
  /** Since when the step is looked at, ms. */
  #since = 0;
  #timed = '';

  /** @param {Page} page */
  constructor(page) {
    this.page = page;
  }

  get stale() {
    return this.model?.revision !== this.page.editor.core.revision();
  }

  get working() {
    return this.#working !== null;
  }

  /** @param {() => void} listener called whenever other steps, or none, are there */
  listen(listener) {
    this.#listeners.push(listener);
  }

  #tell() {
    for (const listener of this.#listeners) listener();
  }

  /** Has the steps of the project as it is now worked out; where parts lie on
   * sheets may come later.
   * @returns {Promise<void>} */
  fresh() {
    this.#working ??= this.#work().finally(() => { this.#working = null; this.#tell(); });
    return this.#working;
  }

  async #work() {
    const { core } = this.page.editor;
    await null; // whoever is told may ask again: it must be known by then that this is under way
    this.#tell();
    while (this.stale && this.#failed !== core.revision()) await this.#ask({ revision: core.revision(), quick: 'quick' });
    if (this.#failed === core.revision()) throw new Error(this.problem);
  }

  /** As fresh, with the sheets that parts lie on.
   * @returns {Promise<void>} */
  whole() {
    this.#laying ??= this.#lay().finally(() => { this.#laying = null; this.#tell(); });
    return this.#laying;
  }

  async #lay() {
    for (await this.fresh(); !this.model?.laid; await this.fresh()) {
      await this.#ask({ revision: this.page.editor.core.revision() });
      if (this.problem) throw new Error(this.problem);
    }
  }

  /** @param {{revision: number, quick?: 'quick'}} order */
  async #ask(order) {
    try {
      const answer = await this.page.maker.order('assembly', order);
      this.model = JSON.parse(text.decode(answer.model));
      this.problem = '';
      this.#failed = -1;
      this.page.editor.core.assemblyArrived(answer.steps);
      this.page.editor.changed();
    } catch (error) {
      this.problem = /** @type {Error} */ (error).message;
      this.#failed = order.revision;
    }
  }

  /** Works out what is stale, if anybody looks. */
  soon() {
    if (this.page.editor.view.view === 'Assemble' && !this.#laying && (this.stale || !this.model?.laid) && this.#failed !== this.page.editor.core.revision()) {
      void this.whole().catch(() => {});
    }
  }

  /** What is being put together, where the model and the editor agree on it.
   * @returns {Build | null} */
  get build() {
    const told = this.page.editor.view.assembly;
    const sprite = this.model?.sprites.find((s) => s.name === told?.sprite);
    if (!told || !sprite || told.parts.length !== sprite.parts.length || told.steps !== sprite.steps.length) return null;
    const step = told.step - 1;
    const now = sprite.steps[step] ?? null;
    const placed = new Set(sprite.steps.slice(0, step).flatMap((s) => s.parts));
    return { sprite, copy: told.copy, step, states: told.parts, lit: this.#lit(sprite, told.copy, now, told.parts), placed, now };
  }

  /** The part that is lit: the one that is pointed at, else the first of the step
   * that is still to be placed.
   * @param {Sprite} sprite
   * @param {number} copy
   * @param {Step | null} now
   * @param {Is[]} states */
  #lit(sprite, copy, now, states) {
    const at = this.page.editor.view.hand.sheets;
    const pointed = at.sprite === sprite.name && at.copy === copy ? sprite.parts.findIndex((p) => p.number === at.part.split('/')[0]) : -1;
    if (pointed >= 0) return pointed;
    return now?.parts.find((i) => states[i] !== 'stuck') ?? now?.parts[0] ?? -1;
  }

  /** Points at a part, or at none.
   * @param {number} index */
  point(index) {
    const { build } = this;
    const part = build?.sprite.parts[index];
    this.page.editor.do('pointAt', build && part ? { sprite: build.sprite.name, copy: build.copy, part: part.number } : {});
  }

  /** The next copy that isn't together yet, after the one that is open. */
  get following() {
    return this.#after(this.page.editor.view.assembly);
  }

  /** @param {import('./types').AssemblyState | null} told */
  #after(told) {
    const copies = told?.copies ?? [];
    const at = copies.findIndex((c) => c.sprite === told?.sprite && c.copy === told.copy);
    return [...copies.slice(at + 1), ...copies.slice(0, Math.max(0, at))].find((c) => c.stuck < c.parts) ?? null;
  }

  /** On, or back.
   * @param {'on' | 'back'} way */
  async goOn(way) {
    try {
      await this.fresh();
    } catch {
      return; // the view says what is wrong
    }
    const { editor } = this.page;
    // As it is now: the view is told a frame later, and a foot may be quicker.
    /** @type {import('./types').AssemblyState | null} */
    const told = JSON.parse(editor.core.panels()).assembly;
    if (!told?.sprite) return;
    if (way === 'on' && told.step > told.steps) {
      const to = this.#after(told);
      if (to) editor.do('putTogether', { sprite: to.sprite, copy: to.copy });
      return;
    }
    editor.do('goOn', { way, seconds: way === 'on' ? this.#took() : 0 });
  }

  /** How long the step has been looked at, s. */
  #took() {
    return this.#timed ? Math.round((performance.now() - this.#since) / 1000) : 0;
  }

  /** Notes when a step came into view, so that the next tells how long it took. */
  time() {
    const { build } = this;
    const now = build && this.page.editor.view.view === 'Assemble' && !document.hidden ? `${build.sprite.name}/${build.copy}/${build.step}` : '';
    if (now === this.#timed) return;
    this.#timed = now;
    this.#since = performance.now();
  }

  /** Says where parts of what is being put together are.
   * @param {number[]} parts none: all that are still in their sheet
   * @param {Is} is */
  mark(parts, is) {
    const { build } = this;
    if (!build) return;
    const numbers = parts.map((i) => build.sprite.parts[i].number);
    this.page.editor.do('markParts', { sprite: build.sprite.name, copy: build.copy, parts: numbers.join(' '), is: is || 'in the sheet' });
    if (is === 'lost') say(words.goesAgain(numbers));
  }

  /** Whether a key was the view's own: a foot switch sends one.
   * @param {KeyboardEvent} event
   * @param {string} press as the list of keys writes it
   * @returns {boolean} */
  key(event, press) {
    const target = event.target instanceof HTMLElement ? event.target : document.body;
    if (target.closest('input, select, textarea, summary')) return false;
    // Where so little room is left that the step itself scrolls, the arrows do that.
    if (target.id === 'assemble-step' && target.scrollHeight > target.clientHeight && /^Arrow(Up|Down)$/.test(press)) return false;
    const onButton = target.closest('button') !== null;
    const { build } = this;
    if (['ArrowRight', 'PageDown'].includes(press) || !onButton && ['Space', 'Enter'].includes(press)) void this.goOn('on');
    else if (['ArrowLeft', 'PageUp', 'Backspace'].includes(press)) void this.goOn('back');
    else if ((press === 'ArrowDown' || press === 'ArrowUp') && build?.now) {
      const { parts } = build.now;
      const at = parts.indexOf(build.lit);
      this.point(parts[(at + (press === 'ArrowDown' ? 1 : parts.length - 1)) % parts.length]);
    } else if (press === 'Escape') this.point(-1);
    else if (this.page.editor.view.hand.letterKeys === 'on' && build && build.lit >= 0 && ['O', 'S', 'L'].includes(press)) {
      this.mark([build.lit], /** @type {Is} */ ({ O: 'out', S: 'stuck', L: 'lost' }[press]));
    } else return false;
    return true;
  }

  /** What state() tells of the steps. */
  state() {
    return { stale: this.stale, laid: this.model?.laid ?? '', problem: this.problem, sprites: this.model?.sprites ?? [], sheets: this.model?.sheets ?? [] };
  }
}

/** @param {Page} page */
export function setUpAssembly(page) {
  const { editor, assembly } = page;
  const known = async (/** @type {any} */ args) => { await assembly.fresh(); return args; };
  for (const name of ['putTogether', 'goOn', 'goToStep', 'markParts', 'buildAnew']) editor.before.set(name, known);
  const picture = new StepPicture(assembly);
  const awake = new Awake(() => {
    const { view } = editor;
    return view.view === 'Assemble' && view.hand.awake === 'on';
  });
  const side = setUpAssembleSide(page, awake);
  const show = () => {
    const open = editor.view.view === 'Assemble';
    byId('assemble').hidden = !open;
    awake.see();
    assembly.time();
    if (!open) return;
    assembly.soon();
    picture.show();
    side();
  };
  byId('step-next').addEventListener('click', () => void assembly.goOn('on'));
  byId('step-back').addEventListener('click', () => void assembly.goOn('back'));
  document.addEventListener('visibilitychange', () => assembly.time());
  new ResizeObserver(() => picture.show()).observe(byId('step-picture'));
  editor.listen(show);
  assembly.listen(show);
}

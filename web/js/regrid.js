// A sprite from any picture: the grid found laid over it, its size and place,
// the number of colours, cells that are unsure; then a sprite, undoable.

import { make } from './dom.js';
import { chooseFile, open } from './dialogs.js';
import { say } from './editor.js';
import { base64 } from './base64.js';
import { cellsAsPNG, pictureAsPNG, readPicture } from './gridpicture.js';
import { frameOf } from './gridframes.js';
import { GridFinder } from './gridfinder.js';
import { GridLens } from './gridlens.js';
import { doubtRow, doubtsOf, doubtWords } from './griddoubts.js';
import { drawFound } from './griddrawn.js';
import { count } from './lengths.js';
import { errorBars } from './gridcolours.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./gridlens.js').Point} Point
 *  @typedef {import('./gridlens.js').Axis} Axis */

/** A sprite that the worker finds; lengths in the pixels it was sent.
 * @typedef {object} Found
 * @property {number} w
 * @property {number} h
 * @property {number[]} cells 0 is empty, else 1 + the index in palette
 * @property {number[]} second
 * @property {number[]} sure 0 to 100
 * @property {string[]} palette
 * @property {number[] | null} errors
 * @property {{X: Axis, Y: Axis}} grid
 * @property {{X: Axis, Y: Axis} | null} other
 * @property {Point[] | null} corners
 * @property {[number, number, number, number][]} strays */

/** Asks for a picture, or for the camera.
 * @param {Page} page
 * @param {boolean} camera */
export async function choosePicture(page, camera) {
  const file = await chooseFile('image/*', camera ? { capture: 'environment' } : {});
  if (file) await showRegrid(page, file);
}

/** @param {Page} page
 * @param {File} file
 * @param {'all' | 'first'} [which] frames of a moving picture */
export async function showRegrid(page, file, which = 'all') {
  try {
    const picture = await readPicture(file, page, which === 'all' ? 'all' : 'one');
    const finding = new Finding(page, file, picture, new GridFinder(page.maker.another(), picture.pixels));
    if (which === 'first') finding.note = 'The frames don’t lie on one grid, so only the first one is taken.';
    finding.open();
  } catch (error) {
    say(/** @type {Error} */ (error).message);
  }
}

/** Of a small picture that looks enlarged: the grid is looked for, and where its
 * cells are pixels, or there is none, the picture is taken as it is.
 * @param {Page} page
 * @param {File} file
 * @param {() => void} asItIs */
export async function showRegridOr(page, file, asItIs) {
  try {
    const picture = await readPicture(file, page);
    const finder = new GridFinder(page.maker.another(), picture.pixels);
    const found = (await finder.find({}).catch(() => null))?.[0];
    if (!found || Math.min(found.grid.X.Size, found.grid.Y.Size) < 1.4) {
      finder.end();
      asItIs();
      return;
    }
    const finding = new Finding(page, file, picture, finder);
    finding.asItIs = asItIs;
    finding.open();
  } catch (error) {
    say(/** @type {Error} */ (error).message);
  }
}

class Finding {
  /** @type {Page} */ #page;
  /** @type {File} */ #file;
  /** @type {import('./gridpicture.js').Picture} */ #picture;
  /** @type {GridFinder} */ #finder;
  /** @type {GridLens} */ #lens;
  /** @type {HTMLDialogElement | null} */ #dialog = null;
  /** @type {Found[]} */ #found = [];
  /** @type {{colours: number, grid: {X: Axis, Y: Axis} | null, corners: Point[] | null, count: number[], several: boolean}} */
  #asked = { colours: 0, grid: null, corners: null, count: [0, 0], several: false };
  #setting = false;
  /** What is to be known beforehand. */
  note = '';
  /** @type {(() => void) | null} takes each pixel for a cell */
  asItIs = null;
  /** @type {import('./griddoubts.js').Doubt[]} cells still to be looked at */ #doubts = [];
  #controls = make('div', { class: 'grid-controls' });
  #status = make('p', { class: 'grid-status', role: 'status' });
  #result = /** @type {HTMLCanvasElement} */ (make('canvas', { class: 'grid-result', role: 'img', 'aria-label': 'The sprite that comes of it' }));
  #keep = /** @type {HTMLInputElement} */ (make('input', { type: 'checkbox', checked: true }));
  #use = /** @type {HTMLButtonElement} */ (make('button', { type: 'button', class: 'next', disabled: true, onclick: () => void this.#accept() }, 'Use this drawing'));

  /** @param {Page} page
   * @param {File} file
   * @param {import('./gridpicture.js').Picture} picture
   * @param {GridFinder} finder */
  constructor(page, file, picture, finder) {
    this.#page = page;
    this.#file = file;
    this.#picture = picture;
    this.#finder = finder;
    this.#lens = new GridLens(picture, (corners) => { this.#asked.corners = corners; void this.#ask(); });
  }

  open() {
    this.#dialog = open('A sprite from a picture', [
      ...(this.note ? [make('p', { class: 'quiet' }, this.note)] : []),
      this.#status,
      make('div', { class: 'grid-pair' }, this.#lens.canvas, this.#result),
      this.#controls,
      make('label', {}, this.#keep, 'Keep the picture under the drawing, to draw after'),
      make('p', { class: 'quiet' }, 'The picture stays on this device.'),
      make('div', { class: 'row grid-accept' }, this.#use, ...(this.asItIs ? [make('button', {
        type: 'button', class: 'plain', onclick: () => { this.#dialog?.close(); this.asItIs?.(); },
      }, `Take each pixel for a cell (${this.#picture.pixels.width} × ${this.#picture.pixels.height})`)] : [])),
    ]);
    this.#dialog.classList.add('wide');
    this.#dialog.addEventListener('close', () => this.#finder.end());
    this.#lens.draw();
    void this.#ask();
  }

  /** Asks the worker; what it answers is shown if nothing newer was asked. */
  async #ask() {
    this.#status.textContent = 'Looking for the grid…';
    this.#use.disabled = true;
    const { colours, grid, corners, count, several } = this.#asked;
    try {
      this.#found = await this.#finder.find({ colours, grid: corners ? null : grid, corners, count, several });
    } catch (error) {
      const words = /** @type {Error} */ (error).message;
      if (!words) return; // overtaken
      this.#found = [];
      this.#doubts = [];
      this.#status.textContent = words.charAt(0).toUpperCase() + words.slice(1) + (words.endsWith('.') ? '' : '.');
      this.#show();
      return;
    }
    const { frames } = this.#picture;
    if (frames && !frameOf(this.#found[0], frames, 0) && !grid && !corners) {
      this.#dialog?.close();
      void showRegrid(this.#page, this.#file, 'first');
      return;
    }
    this.#doubts = doubtsOf(this.#found);
    this.#show();
  }

  #show() {
    const found = this.#found;
    this.#use.disabled = found.length === 0;
    const [doubt] = this.#doubts;
    const cell = doubt ? { grid: doubt.sprite, x: doubt.at % found[doubt.sprite].w, y: Math.floor(doubt.at / found[doubt.sprite].w) } : null;
    this.#lens.show({
      grids: found.length > 0 ? found.map((f) => f.grid) : this.#asked.grid ? [this.#asked.grid] : [],
      corners: this.#setting ? this.#asked.corners : found[0]?.corners ?? null, setting: this.#setting, cell,
    });
    if (found.length > 0) {
      this.#status.textContent = [this.#told(), doubtWords(this.#doubts)].filter(Boolean).join('; ');
      drawFound(this.#result, found, cell);
    }
    this.#controls.replaceChildren(...this.#rows());
  }

  /** What was found, in words. */
  #told() {
    const [first] = this.#found;
    const colours = count(first.palette.length, 'colour');
    if (this.#asked.several) return `${count(this.#found.length, 'sprite')}, ${colours} for all`;
    const size = (/** @type {number} */ v) => tidy(v * this.#picture.shrunk);
    const { frames } = this.#picture;
    const one = (frames && frameOf(first, frames, 0)) ?? first;
    const cells = `${frames ? `${frames.count} frames of ` : ''}${one.w} × ${one.h} cells`;
    return `${cells}${first.corners ? '' : ` of ${size(first.grid.X.Size)} × ${size(first.grid.Y.Size)} pixels`}, ${colours}`;
  }

  #rows() {
    const [first] = this.#found;
    const asked = this.#asked;
    const button = (/** @type {string} */ words, /** @type {() => void} */ act, more = {}) =>
      make('button', { type: 'button', class: 'plain', onclick: act, ...more }, words);
    const stepper = (/** @type {string} */ label, /** @type {string} */ value, /** @type {(by: number) => void} */ step, /** @type {(text: string) => void} */ set) => {
      const input = /** @type {HTMLInputElement} */ (make('input', { type: 'text', inputmode: 'decimal', size: 4, value, autocomplete: 'off' }));
      input.addEventListener('change', () => set(input.value));
      return make('span', { class: 'grid-step' }, make('label', {}, label, input),
        button('−', () => step(-1), { 'aria-label': `${label}: less` }), button('+', () => step(1), { 'aria-label': `${label}: more` }));
    };
    const colours = (/** @type {number} */ n) => { asked.colours = Math.min(Math.max(Math.round(n) || 1, 1), 90); void this.#ask(); };
    const now = first?.palette.length ?? (asked.colours || 4);
    const rows = [make('div', { class: 'row' },
      stepper('Colours', String(now), (by) => colours(now + by), (text) => colours(Number(text))),
      ...(first?.errors && first.errors.length > 1 ? [errorBars(first.errors, now, colours)] : []),
      ...(first?.errors && first.errors.length >= now ? [make('span', { class: 'quiet' }, `off by about ${tidy(first.errors[now - 1])}`)] : []),
      ...(first?.errors && asked.colours > 0 ? [button('As the picture suggests', () => { asked.colours = 0; void this.#ask(); })] : []))];
    if (first && !asked.several) rows.push(make('div', { class: 'row' }, ...(first.corners ? this.#counts(first, stepper) : this.#nudges(first, stepper))));
    rows.push(make('div', { class: 'row' },
      ...(asked.several ? [] : [button(this.#setting ? 'Corners are set' : 'Set the corners', () => this.#corners(), { 'aria-pressed': String(this.#setting) })]),
      ...(first?.other && !asked.several ? [button(`Try cells of ${tidy(first.other.X.Size * this.#picture.shrunk)} pixels`, () => { asked.grid = first.other; void this.#ask(); })] : []),
      ...(asked.grid || asked.corners ? [button('Find it again', () => this.#anew())] : []),
      ...(this.#picture.frames || this.#setting ? [] : [this.#several()])));
    if (this.#doubts.length > 0) rows.push(doubtRow(this.#found, this.#doubts, () => this.#show()));
    return rows;
  }

  #anew() {
    this.#asked = { ...this.#asked, grid: null, corners: null, count: [0, 0] };
    this.#setting = false;
    void this.#ask();
  }

  /** Whether the picture is a sheet of sprites. */
  #several() {
    const box = /** @type {HTMLInputElement} */ (make('input', { type: 'checkbox', checked: this.#asked.several }));
    box.addEventListener('change', () => {
      this.#asked.several = box.checked;
      this.#anew();
    });
    return make('label', {}, box, 'Several sprites stand on it');
  }

  /** Fields for the cells' size and where the first one begins.
   * @param {Found} found
   * @param {(label: string, value: string, step: (by: number) => void, set: (text: string) => void) => HTMLElement} stepper */
  #nudges(found, stepper) {
    const { shrunk } = this.#picture;
    const set = (/** @type {'X' | 'Y'} */ axis, /** @type {'Size' | 'Start'} */ what, /** @type {number} */ value) => {
      if (!Number.isFinite(value)) return;
      const grid = structuredClone(this.#asked.grid ?? found.grid);
      grid[axis][what] = what === 'Size' ? Math.max(1, value) : value;
      this.#asked.grid = grid;
      void this.#ask();
    };
    const one = (/** @type {string} */ label, /** @type {'X' | 'Y'} */ axis, /** @type {'Size' | 'Start'} */ what, /** @type {number} */ step) => {
      const value = found.grid[axis][what];
      return stepper(label, tidy(value * shrunk), (by) => set(axis, what, value + by * step / shrunk), (text) => set(axis, what, Number(text.replace(',', '.')) / shrunk));
    };
    return [one('Cell width', 'X', 'Size', 0.1), one('Cell height', 'Y', 'Size', 0.1), one('Left', 'X', 'Start', 0.5), one('Top', 'Y', 'Start', 0.5)];
  }

  /** Fields for how many cells lie between the corners of a photograph.
   * @param {Found} found
   * @param {(label: string, value: string, step: (by: number) => void, set: (text: string) => void) => HTMLElement} stepper */
  #counts(found, stepper) {
    const now = [found.grid.X.Cells, found.grid.Y.Cells];
    const one = (/** @type {string} */ label, /** @type {number} */ axis) => {
      const set = (/** @type {number} */ n) => {
        if (!Number.isFinite(n)) return;
        this.#asked.count = now.map((was, i) => (i === axis ? Math.min(Math.max(Math.round(n), 1), 512) : was));
        this.#asked.corners ??= found.corners;
        void this.#ask();
      };
      return stepper(label, String(now[axis]), (by) => set(now[axis] + by), (text) => set(Number(text)));
    };
    return [one('Columns', 0), one('Rows', 1)];
  }

  #corners() {
    this.#setting = !this.#setting;
    if (this.#setting && !this.#asked.corners) {
      const { width, height } = this.#picture.pixels;
      this.#asked.corners = this.#found[0]?.corners ?? [
        { X: width * 0.1, Y: height * 0.1 }, { X: width * 0.9, Y: height * 0.1 }, { X: width * 0.9, Y: height * 0.9 }, { X: width * 0.1, Y: height * 0.9 }];
    }
    this.#show();
    if (this.#setting) this.#lens.canvas.focus();
  }

  /** The file's name, as of the picture of cells that comes of it. */
  get #name() {
    return `${this.#picture.name.replace(/\.[^.]*$/, '') || this.#picture.name}.png`;
  }

  async #accept() {
    const found = this.#found;
    if (found.length === 0) return;
    const { editor } = this.#page;
    const { frames } = this.#picture;
    const name = this.#name;
    const png = async (/** @type {{w: number, h: number, cells: number[]}} */ one) => base64(await cellsAsPNG(one.w, one.h, one.cells, found[0].palette));
    try {
      if (frames) await this.#acceptFrames(found[0], frames);
      else if (this.#asked.several) editor.run('importSprites', { name, pngs: await Promise.all(found.map(png)) });
      else editor.run('importSprite', { name, png: await png(found[0]) });
      if (this.#keep.checked) await this.#layUnder(found[0]);
    } catch (error) {
      say(/** @type {Error} */ (error).message);
      return;
    }
    this.#dialog?.close();
  }

  /** @param {Found} found
   * @param {import('./gridframes.js').Frames} frames */
  async #acceptFrames(found, frames) {
    const pngs = [];
    for (let i = 0; i < frames.count; i++) {
      const one = frameOf(found, frames, i);
      if (!one) throw new Error('The frames don’t lie on whole cells: find the grid again, or change the cells’ size.');
      pngs.push(base64(await cellsAsPNG(one.w, one.h, one.cells, found.palette)));
    }
    this.#page.editor.run('importFrames', { name: this.#name, pngs });
  }

  /** Lays the picture under the sprite, so that its cells lie on the grid's; a
   * photograph made straight.
   * @param {Found} found */
  async #layUnder(found) {
    const { editor } = this.#page;
    const { bitmap, pixels, frames, name } = this.#picture;
    const straight = found.corners ? await this.#finder.straightened() : null;
    const laid = straight ?? (frames ? await createImageBitmap(bitmap, 0, 0, bitmap.width / frames.across, bitmap.height / frames.down) : bitmap);
    editor.run('layPicture', { name, png: base64(await pictureAsPNG(laid)) });
    const scaled = Math.min(1, 2048 / Math.max(laid.width, laid.height)); // as pictureAsPNG does
    if (straight) editor.run('placePicture', { scale: found.w / (straight.width * scaled), x: 0, y: 0 });
    else if (!found.corners) {
      const { X, Y } = found.grid;
      const larger = bitmap.width / pixels.width;
      editor.run('placePicture', { scale: 2 / ((X.Size + Y.Size) * larger * scaled), x: -X.Start / X.Size, y: -Y.Start / Y.Size });
    }
  }
}

/** @param {number} value */
const tidy = (value) => String(Number(value.toFixed(2)));

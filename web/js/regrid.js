// A sprite from any picture: the grid found laid over it, its size and place,
// the number of colours, cells that are unsure; then a sprite, undoable.

import { make } from './dom.js';
import { chooseFile, open } from './dialogs.js';
import { say } from './editor.js';
import { base64 } from './base64.js';
import { asPNG } from './picture.js';
import { cellsAsPNG, readPicture } from './gridpicture.js';
import { frameOf } from './gridframes.js';
import { GridFinder } from './gridfinder.js';
import { GridLens } from './gridlens.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./gridlens.js').Point} Point
 *  @typedef {import('./gridlens.js').Axis} Axis */

/** What the worker finds; lengths in the pixels it was sent.
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

/** Cells below this are stepped through, 0 to 100. */
const unsure = 30;

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
    const picture = await readPicture(file, which === 'all' ? page : undefined);
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
    const picture = await readPicture(file);
    const finder = new GridFinder(page.maker.another(), picture.pixels);
    const found = await finder.find({ colours: 0, grid: null, corners: null }).catch(() => null);
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
  /** @type {Found | null} */ #found = null;
  /** @type {{colours: number, grid: {X: Axis, Y: Axis} | null, corners: Point[] | null}} */
  #asked = { colours: 0, grid: null, corners: null };
  #setting = false;
  /** What is to be known beforehand. */
  note = '';
  /** @type {(() => void) | null} takes each pixel for a cell */
  asItIs = null;
  /** @type {number[]} cells still to be looked at */ #doubts = [];
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
      make('div', { class: 'row' }, this.#use, ...(this.asItIs ? [make('button', {
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
    const { colours, grid, corners } = this.#asked;
    try {
      this.#found = await this.#finder.find({ colours, grid: corners ? null : grid, corners });
    } catch (error) {
      const words = /** @type {Error} */ (error).message;
      if (!words) return; // overtaken
      this.#found = null;
      this.#status.textContent = words.charAt(0).toUpperCase() + words.slice(1) + (words.endsWith('.') ? '' : '.');
      this.#show();
      return;
    }
    const found = this.#found;
    const { frames } = this.#picture;
    if (frames && !frameOf(found, frames, 0) && !grid && !corners) {
      this.#dialog?.close();
      void showRegrid(this.#page, this.#file, 'first');
      return;
    }
    this.#doubts = found.sure.map((s, i) => [s, i]).filter(([s]) => s < unsure).sort((a, b) => a[0] - b[0]).map(([, i]) => i);
    this.#show();
  }

  #show() {
    const found = this.#found;
    this.#use.disabled = !found;
    const doubt = found && this.#doubts.length > 0 ? this.#doubts[0] : -1;
    const cell = found && doubt >= 0 ? { x: doubt % found.w, y: Math.floor(doubt / found.w) } : null;
    this.#lens.show({
      grid: found?.grid ?? this.#asked.grid, corners: this.#setting ? this.#asked.corners : found?.corners ?? null, setting: this.#setting, cell,
    });
    if (found) {
      const size = (/** @type {number} */ v) => tidy(v * this.#picture.shrunk);
      const { frames } = this.#picture;
      const one = (frames && frameOf(found, frames, 0)) ?? found;
      this.#status.textContent = `${frames ? `${frames.count} frames of ` : ''}${one.w} × ${one.h} cells of ${size(found.grid.X.Size)} × ${size(found.grid.Y.Size)} pixels, ${found.palette.length} colours`
        + (this.#doubts.length > 0 ? `; ${this.#doubts.length} cells are unsure` : '');
      drawCells(this.#result, found, cell);
    }
    this.#controls.replaceChildren(...this.#rows(cell));
  }

  /** @param {{x: number, y: number} | null} cell */
  #rows(cell) {
    const found = this.#found;
    const button = (/** @type {string} */ words, /** @type {() => void} */ act, more = {}) =>
      make('button', { type: 'button', class: 'plain', onclick: act, ...more }, words);
    const stepper = (/** @type {string} */ label, /** @type {string} */ value, /** @type {(by: number) => void} */ step, /** @type {(text: string) => void} */ set) => {
      const input = /** @type {HTMLInputElement} */ (make('input', { type: 'text', inputmode: 'decimal', size: 4, value, autocomplete: 'off' }));
      input.addEventListener('change', () => set(input.value));
      return make('span', { class: 'grid-step' }, make('label', {}, label, input),
        button('−', () => step(-1), { 'aria-label': `${label}: less` }), button('+', () => step(1), { 'aria-label': `${label}: more` }));
    };
    const colours = (/** @type {number} */ n) => { this.#asked.colours = Math.min(Math.max(Math.round(n) || 1, 1), 90); void this.#ask(); };
    const now = found?.palette.length ?? (this.#asked.colours || 4);
    const rows = [make('div', { class: 'row' },
      stepper('Colours', String(now), (by) => colours(now + by), (text) => colours(Number(text))),
      ...(found?.errors && this.#asked.colours > 0 ? [button('As the picture suggests', () => { this.#asked.colours = 0; void this.#ask(); })] : []),
      ...(found?.errors && found.errors.length >= now ? [make('span', { class: 'quiet' }, `off by about ${tidy(found.errors[now - 1])}`)] : []))];
    if (!this.#asked.corners && found && !found.corners) rows.push(make('div', { class: 'row' }, ...this.#nudges(found, stepper)));
    rows.push(make('div', { class: 'row' },
      button(this.#setting ? 'Corners are set' : 'Set the corners', () => this.#corners(), { 'aria-pressed': String(this.#setting) }),
      ...(found?.other ? [button(`Try cells of ${tidy(found.other.X.Size * this.#picture.shrunk)} pixels`, () => { this.#asked.grid = found.other; void this.#ask(); })] : []),
      ...(this.#asked.grid || this.#asked.corners ? [button('Find it again', () => { this.#asked = { ...this.#asked, grid: null, corners: null }; this.#setting = false; void this.#ask(); })] : [])));
    if (found && cell) rows.push(this.#doubtRow(found, cell, button));
    return rows;
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

  #corners() {
    this.#setting = !this.#setting;
    if (this.#setting && !this.#asked.corners) {
      const { width, height } = this.#picture.pixels;
      this.#asked.corners = this.#found?.corners ?? [
        { X: width * 0.1, Y: height * 0.1 }, { X: width * 0.9, Y: height * 0.1 }, { X: width * 0.9, Y: height * 0.9 }, { X: width * 0.1, Y: height * 0.9 }];
    }
    this.#show();
    if (this.#setting) this.#lens.canvas.focus();
  }

  /** One unsure cell: keep what was found, or take what comes second.
   * @param {Found} found
   * @param {{x: number, y: number}} cell
   * @param {(words: string, act: () => void, more?: object) => HTMLElement} button */
  #doubtRow(found, cell, button) {
    const at = this.#doubts[0];
    const next = (/** @type {number} */ value) => {
      found.cells[at] = value;
      this.#doubts.shift();
      this.#show();
    };
    const named = (/** @type {number} */ value) => (value === 0 ? 'empty' : found.palette[value - 1]);
    const chip = (/** @type {number} */ value) => {
      const mark = make('span', { class: 'grid-chip' });
      if (value > 0) mark.style.background = found.palette[value - 1];
      return mark;
    };
    const keep = button(`Keep ${named(found.cells[at])}`, () => next(found.cells[at]));
    keep.prepend(chip(found.cells[at]));
    const second = button(`Make it ${named(found.second[at])}`, () => next(found.second[at]));
    second.prepend(chip(found.second[at]));
    return make('div', { class: 'row' }, make('span', {}, `Unsure: column ${cell.x + 1}, row ${cell.y + 1}`), keep, second,
      button('Keep all', () => { this.#doubts = []; this.#show(); }));
  }

  async #accept() {
    const found = this.#found;
    if (!found) return;
    const { editor } = this.#page;
    try {
      const { frames } = this.#picture;
      if (frames) await this.#acceptFrames(found, frames);
      else editor.run('importSprite', { name: this.#picture.name, png: base64(await cellsAsPNG(found.w, found.h, found.cells, found.palette)) });
      if (this.#keep.checked) await this.#layUnder(found);
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
    this.#page.editor.run('importFrames', { name: this.#picture.name, pngs });
  }

  /** Lays the picture under the sprite, so that its cells lie on the grid's.
   * @param {Found} found */
  async #layUnder(found) {
    const { editor } = this.#page;
    const { bitmap, shrunk } = this.#picture;
    editor.run('layPicture', { name: this.#file.name, png: base64(await asPNG(this.#file)) });
    if (found.corners) return; // it doesn't lie straight
    const scaled = Math.min(1, 2048 / Math.max(bitmap.width, bitmap.height)); // as asPNG does
    const { X, Y } = found.grid;
    editor.run('placePicture', { scale: 2 / ((X.Size + Y.Size) * shrunk * scaled), x: -X.Start / X.Size, y: -Y.Start / Y.Size });
  }
}

/** @param {HTMLCanvasElement} canvas
 * @param {Found} found
 * @param {{x: number, y: number} | null} marked */
function drawCells(canvas, found, marked) {
  const side = Math.max(1, Math.floor(640 / Math.max(found.w, found.h)));
  canvas.width = found.w * side;
  canvas.height = found.h * side;
  const c = canvas.getContext('2d');
  if (!c) return;
  found.cells.forEach((cell, i) => {
    if (cell === 0) return;
    c.fillStyle = found.palette[cell - 1];
    c.fillRect(i % found.w * side, Math.floor(i / found.w) * side, side, side);
  });
  if (!marked) return;
  c.strokeStyle = '#000';
  c.lineWidth = 5;
  c.strokeRect(marked.x * side, marked.y * side, side, side);
  c.strokeStyle = '#ffd9a0';
  c.lineWidth = 2.5;
  c.strokeRect(marked.x * side, marked.y * side, side, side);
}

/** @param {number} value */
const tidy = (value) => String(Number(value.toFixed(2)));

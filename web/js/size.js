// How large the sprite is: cells, millimetres, and fitting the glass so that
// real size is real.

import { make } from './dom.js';
import { choice, field, open } from './dialogs.js';
import { digits, toMm } from './lengths.js';

/** @typedef {import('./bridge.js').Page} Page */

/** The bank card's size, ISO/IEC 7810 ID-1, mm. */
const bankCard = { width: 85.6, height: 53.98 };

/** @param {Page} page */
export function showSize(page) {
  const { editor } = page;
  const { units } = JSON.parse(editor.core.panels()).hand; // as it is now: it may have been changed just before
  const length = (/** @type {string} */ command, /** @type {string} */ name) => (/** @type {string} */ text) => {
    editor.do(command, { [name]: toMm(text, units) });
    fresh();
  };
  const cell = field(`Cell (${units})`, '', length('setCell', 'mm'));
  const width = field(`Width (${units})`, '', length('setSize', 'width'));
  const height = field(`Height (${units})`, '', length('setSize', 'height'));
  const across = field('Cells across', '', (text) => resize(Number(text), editor.view.sprite.height));
  const down = field('Cells down', '', (text) => resize(editor.view.sprite.width, Number(text)));
  const tweezers = make('p', { class: 'quiet', role: 'status' });
  const resize = (/** @type {number} */ w, /** @type {number} */ h) => {
    editor.do('resize', { width: w, height: h });
    fresh();
  };
  const fresh = () => {
    const { sprite } = JSON.parse(editor.core.panels());
    cell.input.value = digits(sprite.cell, units);
    width.input.value = digits(sprite.size[0], units);
    height.input.value = digits(sprite.size[1], units);
    across.input.value = String(sprite.width);
    down.input.value = String(sprite.height);
  };
  fresh();
  const dialog = open('Size', [
    make('div', { class: 'row' }, cell.row, width.row, height.row),
    tweezers,
    make('div', { class: 'row' }, across.row, down.row,
      make('button', { type: 'button', class: 'plain', onclick: () => { editor.do('trim'); fresh(); } }, 'Cut off empty edges')),
    make('div', { class: 'row' },
      choice('Lengths in', units, [['mm', 'millimetres'], ['in', 'inches']], (v) => { editor.do('units', { units: v }); dialog.close(); showSize(page); }),
      make('button', { type: 'button', class: 'plain', onclick: () => { dialog.close(); showCalibration(page); } }, 'Fit to this glass…')),
  ]);
  const tell = () => {
    const { plan } = editor.view;
    tweezers.textContent = plan.tweezers ? `${plan.tweezers} of ${plan.parts} parts are for tweezers at this size.` : 'No part is for tweezers at this size.';
  };
  tell();
  editor.listen(() => { if (dialog.open) tell(); });
}

/** Lay a bank card on the glass and make the picture as large.
 * @param {Page} page */
export function showCalibration(page) {
  const { editor } = page;
  let px = editor.view.calibration.pxPerMm || 96 / 25.4;
  const card = make('div', { id: 'bank-card' }, 'bank card');
  const slider = /** @type {HTMLInputElement} */ (make('input', { type: 'range', min: 2, max: 12, step: 0.01, value: px, 'aria-label': 'Size of the card on the glass' }));
  slider.style.flex = '1 1 220px';
  const ruler = field('or: 100 mm on a ruler are so many pixels', '', (text) => {
    const value = Number(text.replace(',', '.')) / 100;
    if (value > 0) set(value);
  });
  const set = (/** @type {number} */ value) => {
    px = value;
    card.style.width = `${bankCard.width * px}px`;
    card.style.height = `${bankCard.height * px}px`;
    if (document.activeElement !== slider) slider.value = String(px);
    ruler.input.value = String(Math.round(px * 1000) / 10);
  };
  slider.addEventListener('input', () => set(Number(slider.value)));
  const step = (/** @type {number} */ by) => () => set(Math.max(0.5, px + by / bankCard.width));
  const dialog = open('Fit to this glass', [
    make('p', {}, 'Lay a bank card against the glass and make this one as large. Then 1 : 1 shows true millimetres.'),
    make('div', { class: 'row' },
      make('button', { type: 'button', class: 'plain', 'aria-label': 'A pixel smaller', onclick: step(-1) }, '−'), slider,
      make('button', { type: 'button', class: 'plain', 'aria-label': 'A pixel larger', onclick: step(1) }, '+')),
    card,
    ruler.row,
    make('div', { class: 'row' }, make('button', {
      type: 'button', class: 'next', onclick: () => {
        editor.do('calibrate', { pxPerMm: px });
        editor.do('showSize', { size: 'real' });
        dialog.close();
      },
    }, 'It fits')),
  ]);
  dialog.style.width = 'min(1080px, calc(100vw - 12px))';
  set(px);
}

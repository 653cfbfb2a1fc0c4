// What else there is to a card: its name, what it is cut from, where it lies.

import { make } from './dom.js';
import { choice, field, open } from './dialogs.js';
import { digits, toMm } from './lengths.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page
 * @param {string} key */
export function showCard(page, key) {
  const { editor } = page;
  const { view } = editor;
  const entry = view.palette.find((e) => e.key === key);
  const place = view.stack.find((s) => s.key === key);
  if (!entry || !place) return;
  const { units } = view.hand;
  const name = /** @type {HTMLInputElement} */ (make('input', { type: 'text', value: entry.name, maxlength: 100, autocomplete: 'off' }));
  name.addEventListener('change', () => editor.do('changeColour', { key, name: name.value }));
  const colour = /** @type {HTMLInputElement} */ (make('input', { type: 'color', value: entry.colour }));
  colour.addEventListener('change', () => editor.do('changeColour', { key, colour: colour.value }));
  const others = view.palette.filter((e) => e.key !== key);
  /** @type {[string, string][]} */
  const names = [['', 'choose…'], ...others.map((e) => /** @type {[string, string]} */ ([e.key, e.name]))];
  const dialog = open(entry.name, [
    make('div', { class: 'row' }, make('label', {}, 'Name', name), make('label', {}, 'Colour', colour)),
    make('div', { class: 'row' },
      choice('Cut from', entry.kind, kinds, (kind) => editor.do('setKind', { stock: entry.stock, kind })),
      field(`Thickness (${units})`, digits(entry.thickness, units), (text) => editor.do('setThickness', { stock: entry.stock, mm: toMm(text, units) })).row),
    make('p', { class: 'quiet' }, entry.typical ? 'Its figures are typical ones: measure your own card before you cut.' : ''),
    make('h3', {}, 'In the stack'),
    make('div', { class: 'row' },
      choice('Lies', place.pinned || 'free', [['free', 'wherever it saves parts'], ['lowest', 'lowest'], ['highest', 'highest']], (v) => editor.do('pin', { key, place: v })),
      choice('Over', '', names, (under) => { if (under) editor.do('under', { under, over: key }); })),
    check('It is the outline: keep it on top', place.outline !== '', (on) => editor.do('outlineOnTop', { key: on ? key : '' })),
    check('Spare this card: cut no more than shows', place.spare !== '', (on) => editor.do('spare', { key, how: on ? 'spare' : 'use' })),
    make('h3', {}, 'Palette'),
    make('div', { class: 'row' },
      choice('Becomes the same as', '', names, (into) => { if (into) { editor.do('mergeColours', { from: key, into }); dialog.close(); } }),
      make('button', { type: 'button', class: 'plain', onclick: () => { editor.do('addColour', { colour: entry.colour, name: `${entry.name} 2` }); dialog.close(); } }, 'Add one like it'),
      make('button', { type: 'button', class: 'plain', onclick: () => { editor.do('removeColour', { key, cells: 'rub out' }); dialog.close(); } }, 'Remove it, and its cells')),
  ]);
}

/** @type {[string, string][]} */
const kinds = [['paper', 'paper'], ['card', 'card'], ['mount-board', 'mount board'], ['grey-board', 'grey board'], ['craft-foam', 'craft foam'],
  ['felt', 'felt'], ['plywood', 'plywood'], ['acrylic', 'acrylic'], ['other', 'something else']];

/** @param {string} words
 * @param {boolean} on
 * @param {(on: boolean) => void} changed */
function check(words, on, changed) {
  const box = /** @type {HTMLInputElement} */ (make('input', { type: 'checkbox', checked: on }));
  box.addEventListener('change', () => changed(box.checked));
  return make('label', {}, box, words);
}

// What else there is to a card: its name, what it is cut from, where it lies.

import { make } from './dom.js';
import { choice, field, open } from './dialogs.js';
import { layOver, overWords, showCost, weigh } from './cost.js';
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
  const cost = make('p', { class: 'cost', hidden: true });
  /** @type {any[]} */
  const stocks = editor.run('shelf');
  const stock = stocks.find((s) => s.id === entry.stock);
  const shelf = stocks.map((s) => /** @type {[string, string]} */ ([s.id, s.name]));
  const sheet = () => {
    if (!wide.input.value.trim() || !high.input.value.trim()) return;
    editor.do('setStockSheet', { stock: entry.stock, w_mm: toMm(wide.input.value, units), h_mm: toMm(high.input.value, units) });
  };
  const wide = field(`Its sheets (${units})`, stock?.sheetWidth ? digits(stock.sheetWidth, units) : '', sheet, { placeholder: 'as all' });
  const high = field('×', stock?.sheetHeight ? digits(stock.sheetHeight, units) : '', sheet, { placeholder: 'as all' });
  const at = view.palette.indexOf(entry);
  const dialog = open(entry.name, [
    make('div', { class: 'row' }, make('label', {}, 'Name', name), make('label', {}, 'Colour', colour)),
    make('div', { class: 'row' },
      choice('Cut from', entry.kind, kinds, (kind) => editor.do('setKind', { stock: entry.stock, kind })),
      field(`Thickness (${units})`, digits(entry.thickness, units), (text) => editor.do('setThickness', { stock: entry.stock, mm: toMm(text, units) })).row),
    make('div', { class: 'row' },
      choice('From the shelf', entry.stock, shelf, (stock) => editor.do('setStock', { keys: key, stock })),
      choice('Under a laser', entry.laser, [['fine', 'is fine, as its maker says'], ['unknown', 'nobody knows'], ['never', 'never']], (laser) => editor.do('setLaser', { stock: entry.stock, laser }))),
    make('div', { class: 'row' },
      field(`Its kerf (${units})`, digits(stock?.kerf ?? 0, units), (text) => editor.do('changeStock', { stock: entry.stock, kerf: toMm(text, units) })).row,
      field(`Least strip (${units})`, digits(stock?.leastStrip ?? 0, units), (text) => editor.do('changeStock', { stock: entry.stock, leastStrip: toMm(text, units) })).row),
    make('div', { class: 'row' }, wide.row, high.row),
    make('p', { class: 'quiet' }, entry.typical ? 'Its figures are typical ones: measure your own card before you cut.' : ''),
    make('h3', {}, 'In the stack'),
    make('div', { class: 'row' },
      choice('Lies', place.pinned || 'free', [['free', 'wherever it saves parts'], ['lowest', 'lowest'], ['highest', 'highest']], (v) => weigh(page, `${entry.name} ${v}`, 'pin', { key, place: v })),
      choice('Over', '', names, (under) => { if (under) layOver(page, under, key); }),
      choice('Under', '', names, (over) => { if (over) layOver(page, key, over); })),
    ...wishes(page, key),
    check('It is the outline: keep it on top', place.outline !== '', (on) => weigh(page, on ? `${entry.name} on top` : `${entry.name} as it likes`, 'outlineOnTop', { key: on ? key : '' })),
    check('Spare this card: cut no more than shows', place.spare !== '', (on) => weigh(page, on ? `${entry.name} spared` : `${entry.name} not spared`, 'spare', { key, how: on ? 'spare' : 'use' })),
    cost,
    make('h3', {}, 'Palette'),
    make('div', { class: 'row' },
      choice('Becomes the same as', '', names, (into) => { if (into) { editor.do('mergeColours', { from: key, into }); dialog.close(); } }),
      make('button', { type: 'button', class: 'plain', onclick: () => { editor.do('addColour', { colour: entry.colour, name: `${entry.name} 2` }); dialog.close(); } }, 'Add one like it'),
      make('button', { type: 'button', class: 'plain', disabled: at === 0, onclick: () => { editor.do('moveColour', { key, to: at - 1 }); dialog.close(); } }, 'Earlier'),
      make('button', { type: 'button', class: 'plain', disabled: at === view.palette.length - 1, onclick: () => { editor.do('moveColour', { key, to: at + 1 }); dialog.close(); } }, 'Later'),
      field('Keep so many colours', String(view.palette.length), (text) => editor.do('reduceColours', { colours: Number(text) })).row,
      make('button', { type: 'button', class: 'plain', onclick: () => { editor.do('removeColour', { key, cells: 'rub out' }); dialog.close(); } }, 'Remove it, and its cells')),
  ]);
  editor.listen(() => { if (dialog.open) showCost(page, cost); });
}

/** What was said of where the card lies, each to be taken back.
 * @param {Page} page
 * @param {string} key */
function wishes(page, key) {
  const pairs = page.editor.view.stack.flatMap((s) => s.over.map((under) => ({ under, over: s.key })))
    .filter((pair) => pair.under === key || pair.over === key);
  return pairs.map((pair) => {
    const words = overWords(page, pair.under, pair.over);
    const line = make('div', { class: 'row' }, words, make('button', {
      type: 'button', class: 'plain', 'aria-label': `Take back: ${words}`,
      onclick: () => { weigh(page, `No more ${words}`, 'notUnder', pair); line.remove(); },
    }, 'Take back'));
    return line;
  });
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

// My shelf: the maker's own stocks, whatever is drawn. It stays on the device.

import { make } from './dom.js';
import { choice, chooseFile, field, open } from './dialogs.js';
import { say } from './editor.js';
import { digits, toMm } from './lengths.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./types').OwnStock} OwnStock */

/** Stocks whose figures are in view. */
const opened = new Set();

/** @param {Page} page
 * @param {string} [show] ID of a stock to be shown */
export function showShelf(page, show) {
  const { editor } = page;
  if (show) opened.add(show);
  const held = make('div', { class: 'shelf-held' });
  const change = (/** @type {string} */ command, /** @type {any} */ args) => {
    editor.do(command, args);
    fill(); // also where it was refused: the field shows again what holds
  };
  const away = (/** @type {() => Promise<void> | void} */ act) => { dialog.close(); void act(); };
  const fill = () => {
    const focus = document.activeElement?.getAttribute('data-name');
    held.replaceChildren(...parts(page, change, away, fill));
    if (focus) /** @type {HTMLElement | null} */ (held.querySelector(`[data-name="${CSS.escape(focus)}"]`))?.focus();
  };
  fill();
  const dialog = open('My shelf', [held]);
  if (show) held.querySelector(`[data-stock="${CSS.escape(show)}"]`)?.scrollIntoView({ block: 'nearest' });
}

/** @param {Page} page
 * @param {(command: string, args: any) => void} change
 * @param {(act: () => Promise<void> | void) => void} away
 * @param {() => void} fill
 * @returns {Node[]} */
function parts(page, change, away, fill) {
  const { editor } = page;
  /** @type {OwnStock[]} */
  const stocks = editor.run('ownShelf');
  const button = (/** @type {string} */ words, /** @type {() => void} */ act, more = {}) =>
    make('button', { type: 'button', class: 'plain', onclick: act, ...more }, words);
  const name = /** @type {HTMLInputElement} */ (make('input', { type: 'text', maxlength: 100, size: 16, autocomplete: 'off', placeholder: 'what you call it', 'data-name': 'new name' }));
  const colour = colourField('Its colour', '#888888', () => {}, 'new colour');
  const add = () => {
    const put = editor.do('putOnShelf', { name: name.value.trim(), colour: colour.value() });
    if (!put) return;
    opened.add(put.stock);
    fill();
  };
  return [
    make('p', { class: 'quiet' }, 'The card you have, whatever you draw. The shelf stays on this device; “My bench” saves it as a file.'),
    ...(stocks.length > 0
      ? [make('div', { class: 'row' }, button('Match the drawing to it…', () => away(async () => (await import('./match.js')).showMatch(page, () => showShelf(page))), { class: 'firm' }))]
      : []),
    ...stocks.map((stock) => stockPart(page, stock, change, away)),
    make('h3', {}, 'A stock more'),
    make('div', { class: 'row' }, make('label', {}, 'Name', name), colour.row, button('Put it on the shelf', add)),
    make('h3', {}, 'A whole list'),
    make('div', { class: 'row' },
      button('A shelf to begin with…', () => away(() => showStarters(page))),
      button('From a list (CSV)…', async () => {
        const file = await chooseFile('.csv,.txt,text/csv,text/plain');
        if (file) await take(page, { list: new Uint8Array(await file.arrayBuffer()) }, fill);
      })),
    make('p', { class: 'quiet' }, 'A list’s first row names its columns: name, colour (#rrggbb), and if you like kind, weight_g_m2, thickness_mm, core, sides, grain, width_mm, height_mm, count, laser.'),
  ];
}

/** Puts a starter shelf or a list on the shelf.
 * @param {Page} page
 * @param {{starter?: string, list?: Uint8Array}} what
 * @param {() => void} then */
async function take(page, what, then) {
  try {
    const { data, stocks } = await page.maker.order('stockList', what);
    if (page.editor.do('fillShelf', { bench: data, how: 'add' }) !== undefined) say(`${stocks} stocks are on the shelf.`);
  } catch (error) {
    say(/** @type {Error} */ (error).message);
  }
  then();
}

/** @param {Page} page */
async function showStarters(page) {
  /** @type {{name: string, about: string, stocks: number}[]} */
  let list = [];
  try {
    list = JSON.parse((await page.maker.order('starters')).data);
  } catch (error) {
    say(/** @type {Error} */ (error).message);
    return;
  }
  const dialog = open('A shelf to begin with', [
    make('p', { class: 'quiet' }, 'Colours of our own, with typical figures: change them to those of your card. What is on your shelf stays there.'),
    ...list.map((s) => make('div', { class: 'row' }, make('button', {
      type: 'button', class: 'plain', onclick: () => { dialog.close(); void take(page, { starter: s.name }, () => showShelf(page)); },
    }, s.name), make('span', { class: 'quiet' }, `${s.about}: ${s.stocks} stocks`))),
  ]);
}

/** A colour that is typed or picked.
 * @param {string} words
 * @param {string} value
 * @param {(colour: string) => void} changed
 * @param {string} name */
function colourField(words, value, changed, name) {
  const text = /** @type {HTMLInputElement} */ (make('input', { type: 'text', value, size: 8, maxlength: 7, autocomplete: 'off', spellcheck: 'false', 'data-name': name }));
  const well = /** @type {HTMLInputElement} */ (make('input', { type: 'color', value, 'aria-label': `${words}: choose`, 'data-name': `${name} well` }));
  const tidy = () => (/^#?[0-9a-f]{6}$/i.test(text.value.trim()) ? `#${text.value.trim().replace('#', '').toLowerCase()}` : text.value.trim());
  text.addEventListener('change', () => { if (/^#[0-9a-f]{6}$/.test(tidy())) well.value = tidy(); changed(tidy()); });
  well.addEventListener('change', () => { text.value = well.value; changed(well.value); });
  return { row: make('span', { class: 'row' }, make('label', {}, words, text), well), value: tidy };
}

/** @param {Page} page
 * @param {OwnStock} stock
 * @param {(command: string, args: any) => void} change
 * @param {(act: () => Promise<void> | void) => void} away */
function stockPart(page, stock, change, away) {
  const { units } = page.editor.view.hand;
  const { id } = stock;
  const set = (/** @type {string} */ what, /** @type {unknown} */ value) => change('changeOwnStock', { stock: id, [what]: value });
  const button = (/** @type {string} */ words, /** @type {() => void} */ act, more = {}) =>
    make('button', { type: 'button', class: 'plain', onclick: act, ...more }, words);
  const text = (/** @type {string} */ words, /** @type {string} */ value, /** @type {(text: string) => void} */ changed, more = {}) =>
    field(words, value, changed, { 'data-name': `${id} ${words}`, ...more }).row;
  const colour = colourField('Colour', stock.colour, (c) => set('colour', c), `${id} colour`);
  const core = /** @type {HTMLInputElement} */ (make('input', { type: 'checkbox', checked: stock.core !== '', 'data-name': `${id} has core` }));
  core.addEventListener('change', () => set('core', core.checked ? '#ffffff' : ''));
  const chip = make('span', { class: 'chip', 'aria-hidden': 'true' });
  chip.style.background = stock.colour;
  const sheets = stock.sheets.reduce((sum, s) => sum + s.count, 0);
  const counted = [...(stock.sheets.length ? [sheets === 1 ? '1 sheet' : `${sheets} sheets`] : []), ...(stock.offcuts.length ? [stock.offcuts.length === 1 ? '1 offcut' : `${stock.offcuts.length} offcuts`] : [])];
  const details = make('details', { class: 'shelf-stock' },
    make('summary', {}, chip, stock.name, make('span', { class: 'quiet' }, [`${digits(stock.thickness, units)} ${units}`, ...counted].join(' · '))),
    make('div', { class: 'row' },
      text('Name', stock.name, (v) => set('name', v.trim()), { inputmode: 'text', size: 18, maxlength: 100 }), colour.row,
      button('From a photo…', () => away(async () => (await import('./cardphoto.js')).colourFromPhoto(page, stock, () => showShelf(page, stock.id))))),
    make('div', { class: 'row' },
      choice('Made of', stock.kind, kinds, (kind) => set('kind', kind)),
      text('Weight (g/m²)', stock.weight ? String(stock.weight) : '', (v) => set('weight', Math.round(Number(v) || 0)), { placeholder: 'unknown' }),
      text(`Thickness (${units})`, digits(stock.thickness, units), (v) => set('thickness', toMm(v, units)))),
    make('p', { class: 'quiet' }, stock.typical ? 'The thickness is typical of its weight: measure your own card where it matters.' : 'The thickness is as you measured it.'),
    make('div', { class: 'row' },
      choice('Coloured', stock.sides || 'unknown', [['unknown', 'not known'], ['both', 'on both sides'], ['one', 'on one side only']], (sides) => set('sides', sides)),
      choice('Grain', stock.grain || 'unknown', [['unknown', 'not known'], ['long', 'along the longer side'], ['short', 'along the shorter side'], ['none', 'has none']], (grain) => set('grain', grain)),
      choice('On a laser it is', stock.laser, [['fine', 'fine, its maker says'], ['unknown', 'not known'], ['never', 'never to be cut (PVC, vinyl, unknown foam)']], (laser) => set('laser', laser))),
    make('div', { class: 'row' }, make('label', {}, core, 'The cut edge has another colour'),
      ...(stock.core ? [colourField('Core', stock.core, (c) => set('core', c), `${id} core`).row] : [])),
    ...sizes(units, stock, change),
    make('div', { class: 'row' }, button(`Take ${stock.name} off the shelf`, () => change('takeOffShelf', { stock: id }))));
  details.setAttribute('data-stock', id);
  if (opened.has(id)) details.setAttribute('open', '');
  details.addEventListener('toggle', () => { if (details.hasAttribute('open')) opened.add(id); else opened.delete(id); });
  return details;
}

/** Its sheets, size by size, and its offcuts.
 * @param {'mm'|'in'} units
 * @param {OwnStock} stock
 * @param {(command: string, args: any) => void} change */
function sizes(units, stock, change) {
  const { id } = stock;
  const size = (/** @type {{width: number, height: number}} */ s) => `${digits(s.width, units)} × ${digits(s.height, units)}`;
  const asked = (/** @type {string} */ text, /** @type {(w: number, h: number) => void} */ then) => {
    const [w, h] = text.split(/[x×* ]+/).map((t) => toMm(t, units));
    if (w > 0 && h > 0) then(w, h);
    else say('Give width and height, as in 210 × 297.');
  };
  const another = field(`Another size of sheet (${units})`, '', (text) => asked(text, (w, h) => change('setOwnSheets', { stock: id, w_mm: w, h_mm: h, count: 1 })),
    { placeholder: '210 × 297', size: 9, inputmode: 'text', 'data-name': `${id} size` });
  const offcut = field(`An offcut more (${units})`, '', (text) => asked(text, (w, h) => change('setOwnOffcut', { stock: id, w_mm: w, h_mm: h, do: 'add' })),
    { placeholder: '120 × 80', size: 9, inputmode: 'text', 'data-name': `${id} offcut` });
  return [
    ...stock.sheets.map((s) => make('div', { class: 'row' },
      field(`Sheets of ${size(s)} ${units}`, String(s.count), (text) => change('setOwnSheets', { stock: id, w_mm: s.width, h_mm: s.height, count: Math.max(0, Math.round(Number(text) || 0)) }), { 'data-name': `${id} ${size(s)}` }).row,
      make('button', { type: 'button', class: 'plain', 'aria-label': `No more sheets of ${size(s)}`, onclick: () => change('setOwnSheets', { stock: id, w_mm: s.width, h_mm: s.height, count: -1 }) }, '✕'))),
    make('div', { class: 'row' }, another.row, offcut.row),
    ...(stock.offcuts.length ? [make('div', { class: 'row' }, 'Offcuts:', ...stock.offcuts.map((o) => make('button', {
      type: 'button', class: 'plain', 'aria-label': `Remove the offcut ${size(o)} ${units}`, onclick: () => change('setOwnOffcut', { stock: id, w_mm: o.width, h_mm: o.height, do: 'remove' }),
    }, `${size(o)} ✕`)))] : []),
  ];
}

/** @type {[string, string][]} */
const kinds = [['paper', 'paper'], ['card', 'card'], ['mount-board', 'mount board'], ['grey-board', 'grey board'], ['craft-foam', 'craft foam'],
  ['felt', 'felt'], ['plywood', 'plywood'], ['acrylic', 'acrylic'], ['other', 'something else']];

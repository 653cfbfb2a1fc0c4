// Cells of a found drawing that are to be looked at one by one: unsure ones, and
// lone ones whose neighbours agree on another colour. Nothing changes unasked.

import { make } from './dom.js';
import { count } from './lengths.js';

/** @typedef {import('./regrid.js').Found} Found */

/** A cell below this is unsure, 0 to 100. */
const unsure = 30;

/** A cell to be looked at: of which sprite, where, and what it may become.
 * @typedef {{sprite: number, at: number, lone: boolean, other: number}} Doubt */

/** @param {Found[]} found
 * @returns {Doubt[]} the least sure first, then lone ones row by row */
export function doubtsOf(found) {
  /** @type {Doubt[]} */
  const list = [];
  found.forEach(({ sure, second }, sprite) => sure.forEach((s, at) => { if (s < unsure) list.push({ sprite, at, lone: false, other: second[at] }); }));
  list.sort((a, b) => found[a.sprite].sure[a.at] - found[b.sprite].sure[b.at]);
  const known = new Set(list.map(({ sprite, at }) => `${sprite}/${at}`));
  found.forEach(({ w, strays }, sprite) => {
    for (const [x, y, , other] of strays) if (!known.has(`${sprite}/${y * w + x}`)) list.push({ sprite, at: y * w + x, lone: true, other });
  });
  return list;
}

/** What is still to be looked at, in words; '' where nothing is.
 * @param {Doubt[]} doubts
 * @returns {string} */
export function doubtWords(doubts) {
  const lone = doubts.filter((d) => d.lone).length, rest = doubts.length - lone;
  const told = (/** @type {number} */ n, /** @type {string} */ one, /** @type {string} */ many) => (n === 0 ? [] : [`${count(n, 'cell')} ${n === 1 ? one : many}`]);
  return [...told(rest, 'is unsure', 'are unsure'), ...told(lone, 'stands alone', 'stand alone')].join(', ');
}

/** The buttons for the first of what is to be looked at.
 * @param {Found[]} found
 * @param {Doubt[]} doubts what was dealt with is taken out
 * @param {() => void} changed
 * @returns {HTMLElement} */
export function doubtRow(found, doubts, changed) {
  const doubt = doubts[0];
  const { w, cells, palette } = found[doubt.sprite];
  const button = (/** @type {string} */ words, /** @type {() => void} */ act, /** @type {number} */ shown = -1) => {
    const made = make('button', { type: 'button', class: 'plain', onclick: () => { act(); changed(); } }, words);
    if (shown < 0) return made;
    const chip = make('span', { class: 'grid-chip' });
    if (shown > 0) chip.style.background = palette[shown - 1];
    made.prepend(chip);
    return made;
  };
  const named = (/** @type {number} */ cell) => (cell === 0 ? 'empty' : palette[cell - 1]);
  const become = ({ sprite, at, other } = doubt) => { found[sprite].cells[at] = other; };
  const of = found.length > 1 ? `sprite ${doubt.sprite + 1}, ` : '';
  const words = `${doubt.lone ? 'Alone among its neighbours' : 'Unsure'}: ${of}column ${doubt.at % w + 1}, row ${Math.floor(doubt.at / w) + 1}`;
  const alike = doubts.filter((d) => d.lone === doubt.lone);
  const settle = () => doubts.splice(0, alike.length); // unsure ones come first
  return make('div', { class: 'row' }, make('span', {}, words),
    button(`Keep ${named(cells[doubt.at])}`, () => doubts.shift(), cells[doubt.at]),
    button(`Make it ${named(doubt.other)}`, () => { become(); doubts.shift(); }, doubt.other),
    button('Keep all', settle),
    ...(doubt.lone && alike.length > 1 ? [button(`Change all ${alike.length}`, () => { alike.forEach((d) => become(d)); settle(); })] : []));
}

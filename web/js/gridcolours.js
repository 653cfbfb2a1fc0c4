// How many colours a drawing gets: what each number would cost, as bars.

import { make } from './dom.js';

/** As many numbers of colours are shown at most. */
const most = 9;

/** @param {number[]} errors how far cells would lie from their colour with 1, 2, … colours, about ΔE
 * @param {number} now
 * @param {(n: number) => void} choose
 * @returns {HTMLElement} */
export function errorBars(errors, now, choose) {
  const first = Math.max(1, Math.min(now - 4, errors.length - most + 1));
  const shown = errors.slice(first - 1, first - 1 + most);
  const worst = Math.max(...shown, 1e-9);
  return make('div', { class: 'grid-errors', role: 'group', 'aria-label': 'How far off cells are with so many colours' }, ...shown.map((error, i) => {
    const n = first + i;
    const bar = make('span', { class: 'bar' });
    bar.style.height = `${Math.round(24 * error / worst)}px`;
    return make('button', {
      type: 'button', 'aria-pressed': String(n === now), 'aria-label': `${n} colours, off by about ${Number(error.toFixed(2))}`, title: `off by about ${Number(error.toFixed(2))}`,
      'data-name': `colours-${n}`, onclick: () => choose(n),
    }, bar, String(n));
  }));
}

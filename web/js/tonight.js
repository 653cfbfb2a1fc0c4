// Cut tonight: which sprites, how often, and whether the shelf has the card.

import { make } from './dom.js';
import { open } from './dialogs.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page */
export function showTonight(page) {
  const { editor, sheets } = page;
  const { view } = editor;
  const fields = view.sprites.map((name, i) => /** @type {HTMLInputElement} */ (make('input', {
    type: 'number', min: 0, max: 1000, step: 1, value: view.choice.copies[i], 'aria-label': `Copies of ${name}`, 'data-name': `copies-${i}`,
  })));
  const shelf = make('ul', { class: 'shelf', 'aria-live': 'polite' });
  const apply = () => {
    editor.do('cutTonight', { copies: fields.map((f) => Math.max(0, Math.round(Number(f.value) || 0))) });
    void look();
  };
  const look = async () => {
    shelf.replaceChildren(make('li', { class: 'quiet' }, 'Laying the parts…'));
    try {
      await sheets.fresh();
      shelf.replaceChildren(...(sheets.model?.stocks ?? []).map((stock) => make('li', { class: stock.shelf >= 0 && stock.needed > stock.shelf ? 'short' : '' }, shelfWords(stock))));
    } catch (error) {
      shelf.replaceChildren(make('li', {}, /** @type {Error} */ (error).message));
    }
  };
  for (const field of fields) field.addEventListener('change', apply);
  const set = (/** @type {(i: number) => number} */ value) => {
    fields.forEach((field, i) => { field.value = String(value(i)); });
    apply();
  };
  const rows = view.sprites.map((name, i) => make('li', {}, make('label', {}, make('span', {}, name), fields[i]),
    make('button', { type: 'button', class: 'plain', 'aria-label': `Only this: ${name}`, onclick: () => set((k) => (k === i ? Math.max(1, Number(fields[i].value)) : 0)) }, 'Only this')));
  const dialog = open('Cut tonight', [
    make('p', { class: 'quiet' }, 'How many of each are cut now; 0 leaves one out. The drawing stays as it is.'),
    make('ul', { class: 'tonight' }, ...rows),
    make('div', { class: 'row' },
      make('button', { type: 'button', class: 'plain', onclick: () => { editor.do('cutTonight', {}); dialog.close(); } }, 'All of them'),
      make('button', { type: 'button', class: 'firm', onclick: () => dialog.close() }, 'Show the sheets')),
    make('h3', {}, 'On the shelf'),
    shelf,
  ]);
  void look();
}

/** @param {import('./types').SheetStock} stock */
export function shelfWords(stock) {
  const sheets = (/** @type {number} */ n) => `${n} ${n === 1 ? 'sheet' : 'sheets'}`;
  const offcuts = stock.offcuts ? ` and ${stock.offcuts} ${stock.offcuts === 1 ? 'offcut' : 'offcuts'}` : '';
  const there = stock.shelf < 0 ? 'nobody counted what is on the shelf' : `${stock.shelf} on the shelf`;
  const grams = stock.grams ? `, parts of ${Math.round(stock.grams * 10) / 10} g` : '';
  return `${stock.name}: ${sheets(stock.needed)}${offcuts} needed, ${there}; ${stock.waste} % waste${grams}.`;
}

// The views in the header: a button each, on a phone one choice.

import { byId, make } from './dom.js';

/** @typedef {import('./bridge.js').Page} Page */

const names = ['Draw', 'Sheets', 'Assemble'];

/** @param {Page} page */
export function setUpViews(page) {
  const { editor } = page;
  const buttons = names.map((name) => make('button', {
    type: 'button', 'data-name': name, onclick: () => editor.do('showView', { view: name }),
  }, name));
  const select = /** @type {HTMLSelectElement} */ (make('select', {
    'aria-label': 'View', onchange: () => editor.do('showView', { view: select.value }),
  }, ...names.map((name) => make('option', { value: name }, name))));
  byId('views').append(...buttons, select);
  let shown = '';
  editor.listen((view) => {
    const open = names.includes(view.view) ? view.view : 'Draw';
    buttons.forEach((button, i) => button.setAttribute('aria-pressed', String(names[i] === open)));
    if (select.value !== open) select.value = open;
    if (open === shown) return;
    shown = open;
    byId('page').setAttribute('data-view', open);
    page.arrange();
  });
}

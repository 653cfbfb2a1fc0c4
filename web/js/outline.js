// An outline round everything, and how the other tools draw.

import { make } from './dom.js';
import { choice, open } from './dialogs.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page */
export function showOutline(page) {
  const { editor } = page;
  const { hand, palette } = editor.view;
  const set = (/** @type {string} */ name) => (/** @type {string} */ value) => editor.do('toolOptions', { [name]: value });
  const entry = palette.find((e) => e.key === hand.key);
  const dialog = open('Outline', [
    make('p', {}, `Draws an outline round everything in ${entry?.name ?? 'the chosen card'}.`),
    choice('Goes', hand.outlineSide, [['outside', 'outside the drawing'], ['inside', 'inside its edge']], set('outlineSide')),
    choice('Corners', hand.outlineCorners, [['without', 'left out'], ['with', 'taken too']], set('outlineCorners')),
    make('div', { class: 'row' }, make('button', { type: 'button', class: 'next', onclick: () => { editor.do('outline'); dialog.close(); } }, 'Draw it')),
    make('h3', {}, 'Other tools'),
    choice('Boxes and ovals', hand.body, [['line', 'as a line'], ['filled', 'filled']], set('body')),
    choice('Fill', hand.reach, [['joined', 'joined cells'], ['everywhere', 'all of that colour']], set('reach')),
  ]);
}

// The tools along the foot of the bench.

import { byId, make } from './dom.js';
import { icon } from './icons.js';
import { showPicture } from './picture.js';
import { showOutline } from './outline.js';
import { showChange } from './change.js';

/** @typedef {import('./bridge.js').Page} Page */

const tools = [
  ['pencil', 'Pencil'], ['rub', 'Rub out'], ['fill', 'Fill'], ['line', 'Line'], ['box', 'Box'], ['oval', 'Oval'],
  ['move', 'Move'], ['pick', 'Pick'],
];

/** @param {Page} page */
export function setUpTools(page) {
  const { editor } = page;
  const bar = byId('tool-bar');
  /** @type {Map<string, HTMLElement>} */
  const buttons = new Map();
  /** @param {string} name
   * @param {string} word
   * @param {() => void} act
   * @param {Record<string, any>} [more] */
  const add = (name, word, act, more = {}) => {
    const button = make('button', { type: 'button', class: `tool ${more.class ?? ''}`, 'data-name': name, onclick: act, 'aria-haspopup': more.popup }, icon(name), word);
    buttons.set(name, button);
    bar.append(button);
    return button;
  };
  for (const [name, word] of tools) add(name, word, () => editor.do('tool', { tool: name }));
  bar.append(make('span', { class: 'rule', 'aria-hidden': 'true' }));
  add('both', 'Both', () => editor.do('bothSides', { sides: editor.view.hand.bothSides === 'off' ? 'left-right' : 'off' }), { class: 'switch' })
    .setAttribute('aria-label', 'Both: draw on both sides');
  add('outline', 'Outline', () => showOutline(page), { popup: 'dialog' });
  add('change', 'Change', () => showChange(page), { popup: 'dialog' });
  add('picture', 'Picture', () => showPicture(page), { popup: 'dialog' });
  rove(bar);

  editor.listen((view) => {
    for (const [name] of tools) buttons.get(name)?.setAttribute('aria-pressed', String(view.hand.tool === name));
    buttons.get('both')?.setAttribute('aria-pressed', String(view.hand.bothSides !== 'off'));
  });
}

/** One stop of the Tab key for the whole bar; arrow keys move within it (ARIA
 * Authoring Practices, toolbar).
 * @param {HTMLElement} bar */
function rove(bar) {
  const all = () => /** @type {HTMLElement[]} */ ([...bar.querySelectorAll('button')]);
  all().forEach((button, i) => { button.tabIndex = i === 0 ? 0 : -1; });
  bar.addEventListener('focusin', (event) => {
    for (const button of all()) button.tabIndex = button === event.target ? 0 : -1;
  });
  bar.addEventListener('keydown', (event) => {
    const list = all();
    const at = list.indexOf(/** @type {HTMLElement} */ (document.activeElement));
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
    if (at < 0 || (!step && event.key !== 'Home' && event.key !== 'End')) return;
    event.preventDefault();
    event.stopPropagation();
    const to = event.key === 'Home' ? 0 : event.key === 'End' ? list.length - 1 : (at + /** @type {number} */ (step) + list.length) % list.length;
    list[to].focus();
  });
}

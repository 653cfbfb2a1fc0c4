// The head of the page: which sprite, undo and redo, the cutting files.

import { byId, make, write } from './dom.js';
import { icon } from './icons.js';
import { count } from './lengths.js';
import { showSprites } from './sprites.js';
import { showFiles } from './files.js';
import { showMore } from './more.js';

/** @typedef {import('./editor.js').Editor} Editor
 *  @typedef {import('./types').View} View
 *  @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page */
export function setUpHead(page) {
  const { editor } = page;
  const buttons = /** @type {Record<string, HTMLButtonElement>} */ ({});
  for (const name of ['title', 'undo', 'redo', 'more', 'files']) buttons[name] = /** @type {HTMLButtonElement} */ (byId(name));
  for (const name of ['undo', 'redo', 'more']) buttons[name].append(icon(name));
  buttons.files.replaceChildren(make('span', { class: 'wide-word' }, 'Get the '), make('span', { class: 'mid-word' }, 'cutting'), 'files');
  buttons.more.setAttribute('aria-label', 'Project, keys and more');
  buttons.more.title = 'Project, keys and more';
  buttons.title.onclick = () => showSprites(page);
  buttons.files.onclick = () => showFiles(page);
  buttons.more.onclick = () => showMore(page);
  buttons.undo.onclick = () => editor.do('undo');
  buttons.redo.onclick = () => editor.do('redo');
  for (const name of ['title', 'more', 'files']) buttons[name].disabled = false;

  editor.listen((/** @type {View} */ view) => {
    write(byId('title-name'), view.sprite.name);
    const saved = page.saveProblem || (view.saved ? 'saved' : 'saving…');
    write(byId('title-more'), `${view.project} · ${count(view.sprites.length, 'sprite')} · ${saved}`);
    name(buttons.undo, view.undo, 'Undo', view.undoTitle);
    name(buttons.redo, view.redo, 'Redo', view.redoTitle);
    document.title = `${view.sprite.name} – Sheetsprite`;
  });
}

/** @param {HTMLButtonElement} button
 * @param {number} steps
 * @param {string} verb
 * @param {string} what */
function name(button, steps, verb, what) {
  button.disabled = steps === 0;
  const words = what ? `${verb}: ${what.toLowerCase()}` : verb;
  button.setAttribute('aria-label', words);
  button.title = words;
}

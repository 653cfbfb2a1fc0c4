// The sprites of the project, as little standing pictures.

import { make } from './dom.js';
import { open } from './dialogs.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page */
export function showSprites(page) {
  const { editor } = page;
  const { view } = editor;
  const list = make('div', { class: 'standing' }, ...view.sprites.map((name, i) => make('button', {
    type: 'button', 'aria-current': i === view.sprite.index ? 'true' : null,
    onclick: () => { editor.do('showSprite', { name }); dialog.close(); },
  }, picture(page, i), make('span', {}, name))));
  const act = (/** @type {string} */ command, /** @type {any} */ args = undefined) => () => { editor.do(command, args); dialog.close(); };
  const name = /** @type {HTMLInputElement} */ (make('input', { type: 'text', value: view.sprite.name, maxlength: 200, size: 18, autocomplete: 'off' }));
  name.addEventListener('change', () => editor.do('renameSprite', { to: name.value }));
  const dialog = open('Sprites', [
    list,
    make('div', { class: 'row' },
      make('button', { type: 'button', class: 'plain', onclick: act('addSprite') }, 'Add a sprite'),
      make('button', { type: 'button', class: 'plain', onclick: act('copySprite') }, 'Copy this one'),
      make('button', { type: 'button', class: 'plain', onclick: act('moveSprite', { to: view.sprite.index - 1 }), disabled: view.sprite.index === 0 }, 'Earlier'),
      make('button', { type: 'button', class: 'plain', onclick: act('moveSprite', { to: view.sprite.index + 1 }), disabled: view.sprite.index === view.sprites.length - 1 }, 'Later'),
      make('button', { type: 'button', class: 'plain', onclick: act('removeSprite'), disabled: view.sprites.length === 1 }, 'Remove this one')),
    make('label', {}, 'Name', name),
  ]);
  /** @type {HTMLElement | null} */ (list.querySelector('[aria-current="true"]'))?.focus();
}

/** @param {Page} page
 * @param {number} index */
function picture(page, index) {
  const small = page.editor.core.thumbnail(index);
  const canvas = /** @type {HTMLCanvasElement} */ (make('canvas', { 'aria-hidden': 'true' }));
  if (!small) return canvas;
  canvas.width = small.width;
  canvas.height = small.height;
  canvas.getContext('2d')?.putImageData(new ImageData(/** @type {any} */ (small.pixels), small.width, small.height), 0, 0);
  const scale = 84 / Math.max(small.width, small.height);
  canvas.style.width = `${small.width * scale}px`;
  canvas.style.height = `${small.height * scale}px`;
  return canvas;
}

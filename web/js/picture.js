// The picture under the grid, to draw after; never part of the drawing.

import { make } from './dom.js';
import { chooseFile, field, open } from './dialogs.js';
import { base64 } from './base64.js';
import { pictureAsPNG, readPicture } from './gridpicture.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page */
export function showPicture(page) {
  const { editor } = page;
  const placed = editor.view.picture;
  const lay = async () => {
    const file = await chooseFile('image/*');
    if (!file) return;
    try {
      editor.run('layPicture', { name: file.name, png: base64(await pictureAsPNG((await readPicture(file, page)).bitmap)) });
    } catch (error) {
      const { say } = await import('./editor.js');
      say(/** @type {Error} */ (error).message);
      return;
    }
    dialog.close();
    setTimeout(() => showPicture(page), 50);
  };
  const set = (/** @type {string} */ name) => (/** @type {string} */ text) => editor.do('placePicture', { [name]: Number(text.replace(',', '.')) });
  const held = [make('p', { class: 'quiet' }, 'A photo or a sketch that lies under the grid while you draw. It is never cut.'),
    make('div', { class: 'row' }, make('button', { type: 'button', class: 'plain', onclick: () => void lay() }, placed ? 'Another picture…' : 'Choose a picture…'),
      ...(placed ? [make('button', { type: 'button', class: 'plain', onclick: () => { editor.do('takePicture'); dialog.close(); } }, 'Take it away')] : []))];
  if (placed) {
    const fade = /** @type {HTMLInputElement} */ (make('input', { type: 'range', min: 0, max: 1, step: 0.01, value: placed.opacity }));
    fade.addEventListener('input', () => set('opacity')(fade.value));
    held.push(make('label', {}, 'How strong', fade),
      make('div', { class: 'row' },
        field('Left (cells)', tidy(placed.x), set('x')).row,
        field('Top (cells)', tidy(placed.y), set('y')).row,
        field('Cells a pixel', tidy(placed.scale), set('scale')).row));
  }
  const dialog = open('Picture under the grid', held);
}

/** @param {number} value */
const tidy = (value) => String(Number(value.toPrecision(4)));

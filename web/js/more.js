// The project as a whole: new, open, save; pictures in and out; keys.

import { make } from './dom.js';
import { chooseFile, open } from './dialogs.js';
import { take } from './drop.js';
import { showIntro } from './intro.js';
import { showCutting } from './cutting.js';
import { showKeys } from './keys.js';
import { showBench } from './mybench.js';
import { saveProject, savePicture } from './savefile.js';
import { showCalibration } from './size.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page
 * @param {boolean} camera */
const choosePicture = async (page, camera) => (await import('./regrid.js')).choosePicture(page, camera);

/** @param {Page} page */
export function showMore(page) {
  const shelf = async () => (await import('./shelf.js')).showShelf(page);
  const { editor } = page;
  const name = /** @type {HTMLInputElement} */ (make('input', { type: 'text', value: editor.view.project, maxlength: 200, autocomplete: 'off' }));
  name.addEventListener('change', () => editor.do('renameProject', { name: name.value }));
  const button = (/** @type {string} */ words, /** @type {() => void} */ act) =>
    make('button', { type: 'button', class: 'plain', onclick: () => { dialog.close(); act(); } }, words);
  const dialog = open('Project', [
    make('label', {}, 'Name', name),
    make('div', { class: 'row' },
      button('Start a new one', () => editor.do('new')),
      button('Open a file…', async () => { const file = await chooseFile('.json,application/json,image/png'); if (file) void take(page, file); }),
      button('Save as a file', () => void saveProject(page)),
      ...(editor.view.former ? [button(`Back to ${editor.view.former}`, () => editor.do('reopen'))] : [])),
    make('div', { class: 'row' }, button('How it is cut…', () => showCutting(page)), button('My bench…', () => showBench(page)),
      button('My shelf…', shelf),
      button('Match to my shelf…', async () => (await import('./match.js')).showMatch(page, () => void shelf()))),
    make('h3', {}, 'A sprite from a picture'),
    make('div', { class: 'row' },
      button('Choose a picture…', () => void choosePicture(page, false)),
      button('Take a photo…', () => void choosePicture(page, true)),
      button('Save this sprite as a picture', () => void savePicture(page))),
    make('h3', {}, 'This glass'),
    make('div', { class: 'row' },
      button('All keys', () => showKeys(page)),
      button('Introduction', () => showIntro(page)),
      button('Fit to this glass…', () => showCalibration(page))),
  ]);
}

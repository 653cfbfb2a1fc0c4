// A card's colour from a photo of it beside a white sheet: the maker puts a spot
// on each. The photo stays on the device.

import { make } from './dom.js';
import { chooseFile, open } from './dialogs.js';
import { say } from './editor.js';
import { readPicture } from './gridpicture.js';
import { GridLens } from './gridlens.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./types').OwnStock} OwnStock
 *  @typedef {import('./gridlens.js').Point} Point */

/** @param {Page} page
 * @param {OwnStock} stock
 * @param {() => void} back shows the shelf again */
export async function colourFromPhoto(page, stock, back) {
  const pick = async (/** @type {boolean} */ camera) => {
    const file = await chooseFile('image/*', camera ? { capture: 'environment' } : {});
    if (!file) return;
    try {
      const picture = await readPicture(file, page);
      ask.close();
      mark(page, stock, picture, back);
    } catch (error) {
      say(/** @type {Error} */ (error).message);
    }
  };
  const ask = open(`The colour of ${stock.name}`, [
    make('p', {}, 'Lay the card beside a plain white sheet, both in the same light: daylight, no direct sun, no shadow on either. Take the photo so that the white isn’t glaring.'),
    make('div', { class: 'row' },
      make('button', { type: 'button', class: 'firm', onclick: () => void pick(true) }, 'Take a photo…'),
      make('button', { type: 'button', class: 'plain', onclick: () => void pick(false) }, 'Choose a photo…'),
      make('button', { type: 'button', class: 'plain', onclick: () => { ask.close(); back(); } }, 'Back to the shelf')),
    make('p', { class: 'quiet' }, 'The photo stays on this device.'),
  ]);
}

/** @param {Page} page
 * @param {OwnStock} stock
 * @param {import('./gridpicture.js').Picture} picture
 * @param {() => void} back */
function mark(page, stock, picture, back) {
  const { width, height } = picture.pixels;
  const reach = Math.max(2, Math.round(Math.min(width, height) / 40));
  let told = '';
  let last = 0;
  const chip = make('span', { class: 'grid-chip' });
  const status = make('p', { class: 'grid-status', role: 'status' });
  const use = /** @type {HTMLButtonElement} */ (make('button', {
    type: 'button', class: 'next', disabled: true, onclick: () => {
      if (page.editor.do('changeOwnStock', { stock: stock.id, colour: told }) !== undefined) dialog.close();
    },
  }, 'Use this colour'));
  const find = async (/** @type {Point[]} */ spots) => {
    const asked = ++last;
    const [white, card] = spots.map((p) => piece(picture.pixels, p, reach));
    try {
      const { colour } = await page.maker.order('cardColour', { white, card });
      if (asked !== last) return;
      told = colour;
      chip.style.background = colour;
      status.replaceChildren(chip, ` The card is ${colour}.`);
      use.disabled = false;
    } catch (error) {
      if (asked !== last) return;
      const words = /** @type {Error} */ (error).message;
      status.textContent = `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
      use.disabled = true;
    }
  };
  const spots = [{ X: width * 0.25, Y: height * 0.5 }, { X: width * 0.75, Y: height * 0.5 }];
  const lens = new GridLens(picture, (moved) => void find(moved), ['white', 'card']);
  const dialog = open(`The colour of ${stock.name}`, [
    make('p', {}, 'Put the spot “white” on the white sheet and the spot “card” on the card.'),
    lens.canvas,
    status,
    make('div', { class: 'row' }, use),
  ]);
  dialog.addEventListener('close', back);
  lens.show({ corners: spots, setting: true });
  lens.canvas.focus();
  void find(spots);
}

/** The pixels round a place: a square of at most 64 a side.
 * @param {ImageData} pixels
 * @param {Point} at
 * @param {number} reach
 * @returns {Uint8Array} */
function piece(pixels, at, reach) {
  const step = Math.max(1, Math.ceil((2 * reach + 1) / 64));
  /** @type {number[]} */
  const out = [];
  for (let y = -reach; y <= reach; y += step) {
    for (let x = -reach; x <= reach; x += step) {
      const px = Math.min(Math.max(Math.floor(at.X) + x, 0), pixels.width - 1);
      const py = Math.min(Math.max(Math.floor(at.Y) + y, 0), pixels.height - 1);
      out.push(...pixels.data.subarray(4 * (py * pixels.width + px), 4 * (py * pixels.width + px) + 4));
    }
  }
  return Uint8Array.from(out);
}

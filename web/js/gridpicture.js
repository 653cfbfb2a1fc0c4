// A file or photo as pixels for the grid to be found in. The browser decodes,
// turns and takes to sRGB whatever it can read; nothing leaves the device.

import { framesOf } from './gridframes.js';

/** As many pixels as the worker looks at, and the largest picture taken. */
const working = 4 << 20;
const largest = 40 << 20;

/** @typedef {{bitmap: ImageBitmap, pixels: ImageData, shrunk: number, name: string, frames: import('./gridframes.js').Frames | null}} Picture
 *  shrunk: how many of the picture's pixels, along a side, are one of pixels;
 *  frames: how those of a moving picture lie in it */

/** @param {File} file
 * @param {import('./bridge.js').Page} page
 * @param {'one' | 'all'} [which] frames of a moving picture; one: its first
 * @returns {Promise<Picture>} */
export async function readPicture(file, page, which = 'one') {
  const frames = which === 'all' ? await framesOf(file, page) : null;
  const own = frames ? null : await createImageBitmap(file).catch(() => null);
  const decoded = frames || own ? null : await decodedBy(page, file);
  const bitmap = frames?.bitmap ?? own ?? decoded?.bitmap;
  if (!bitmap) throw new Error(`${file.name} isn’t a picture that this browser can read: save it as PNG or JPEG.`);
  if (bitmap.width * bitmap.height > largest) {
    throw new Error(`${file.name} is ${bitmap.width} × ${bitmap.height} pixels, but at most 40 megapixels are read: make it smaller, or crop it to the sprite.`);
  }
  let shrunk = 1; // further
  while (Math.floor(bitmap.width / shrunk) * Math.floor(bitmap.height / shrunk) > working) shrunk++;
  const width = Math.max(1, Math.floor(bitmap.width / shrunk));
  const height = Math.max(1, Math.floor(bitmap.height / shrunk));
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error('The browser has no memory left for this picture: close other pages, or make it smaller.');
  context.imageSmoothingEnabled = shrunk > 1;
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, width, height);
  return { bitmap, pixels: context.getImageData(0, 0, width, height), shrunk: shrunk * (decoded?.shrunk ?? 1), name: file.name, frames: frames?.frames ?? null };
}

/** A picture that the browser can't read, a TIFF say, by our own program.
 * @param {import('./bridge.js').Page} page
 * @param {File} file
 * @returns {Promise<{bitmap: ImageBitmap, shrunk: number}>} */
async function decodedBy(page, file) {
  const { pixels, width, height, shrunk } = await page.maker.order('decoded', { data: new Uint8Array(await file.arrayBuffer()) })
    .catch((error) => { throw new Error(`${file.name}: ${error.message}.`); });
  return { bitmap: await createImageBitmap(new ImageData(new Uint8ClampedArray(pixels.buffer), width, height)), shrunk };
}

/** A picture as a PNG of at most 2048 pixels a side.
 * @param {ImageBitmap | ImageData} picture
 * @returns {Promise<Uint8Array>} */
export async function pictureAsPNG(picture) {
  const bitmap = picture instanceof ImageData ? await createImageBitmap(picture) : picture;
  const scale = Math.min(1, 2048 / Math.max(bitmap.width, bitmap.height));
  const canvas = new OffscreenCanvas(Math.max(1, Math.round(bitmap.width * scale)), Math.max(1, Math.round(bitmap.height * scale)));
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return new Uint8Array(await (await canvas.convertToBlob({ type: 'image/png' })).arrayBuffer());
}

/** A drawing of cells as a PNG, a pixel each.
 * @param {number} width
 * @param {number} height
 * @param {number[]} cells 0 is empty, else 1 + an index
 * @param {string[]} palette #rrggbb
 * @returns {Promise<Uint8Array>} */
export async function cellsAsPNG(width, height, cells, palette) {
  const data = new ImageData(width, height);
  cells.forEach((cell, i) => {
    if (cell === 0) return;
    const rgb = Number.parseInt(palette[cell - 1].slice(1), 16);
    data.data.set([rgb >> 16, (rgb >> 8) & 255, rgb & 255, 255], 4 * i);
  });
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext('2d')?.putImageData(data, 0, 0);
  return new Uint8Array(await (await canvas.convertToBlob({ type: 'image/png' })).arrayBuffer());
}

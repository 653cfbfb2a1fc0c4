// A moving picture's frames laid side by side, so that one grid and one palette
// are found for all of them.

/** At most as many as a sprite has. */
const most = 256;
const largest = 40 << 20; // pixels of all together

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {{across: number, down: number, count: number}} Frames
 *  across × down of them in reading order; beyond count the last one again */

/** The frames of a GIF as one picture, or null where there is only one.
 * @param {File} file
 * @param {Page} page
 * @returns {Promise<{bitmap: ImageBitmap, frames: Frames} | null>} */
export async function framesOf(file, page) {
  if (file.type !== 'image/gif') return null;
  const Decoder = /** @type {any} */ (globalThis).ImageDecoder;
  if (!Decoder) return framesMade(file, page);
  const decoder = new Decoder({ data: await file.arrayBuffer(), type: file.type });
  try {
    await decoder.tracks.ready;
    await decoder.completed;
    const count = decoder.tracks.selectedTrack?.frameCount ?? 1;
    if (count < 2) return null;
    if (count > most) throw new Error(`${file.name} has ${count} frames, but a sprite has at most ${most}: save fewer.`);
    const across = Math.ceil(Math.sqrt(count));
    const down = Math.ceil(count / across);
    /** @type {OffscreenCanvas | null} */
    let canvas = null;
    /** @type {OffscreenCanvasRenderingContext2D | null} */
    let context = null;
    for (let i = 0; i < across * down; i++) {
      const { image } = await decoder.decode({ frameIndex: Math.min(i, count - 1) });
      const { displayWidth: width, displayHeight: height } = image;
      if (!canvas) {
        if (width * height * across * down > largest) throw new Error(`The frames of ${file.name} have more than 40 megapixels together: save it smaller, or with fewer frames.`);
        canvas = new OffscreenCanvas(width * across, height * down);
        context = canvas.getContext('2d');
      }
      context?.drawImage(image, i % across * width, Math.floor(i / across) * height);
      image.close();
    }
    return canvas && { bitmap: await createImageBitmap(canvas), frames: { across, down, count } };
  } finally {
    decoder.close();
  }
}

/** The same from our own program, where the browser doesn't show frames one by
 * one.
 * @param {File} file
 * @param {Page} page
 * @returns {Promise<{bitmap: ImageBitmap, frames: Frames} | null>} */
async function framesMade(file, page) {
  const { pixels, width, height, across, down, count } = await page.maker.order('frames', { data: new Uint8Array(await file.arrayBuffer()) })
    .catch((error) => { throw new Error(`${file.name}: ${error.message}`); });
  if (count < 2) return null;
  const bitmap = await createImageBitmap(new ImageData(new Uint8ClampedArray(pixels.buffer), width, height));
  return { bitmap, frames: { across, down, count } };
}

/** The cells of one frame of a grid that was found over all; null where the
 * frames don't lie on whole cells.
 * @param {{w: number, h: number, cells: number[]}} found
 * @param {Frames} frames
 * @param {number} frame
 * @returns {{w: number, h: number, cells: number[]} | null} */
export function frameOf(found, frames, frame) {
  const w = found.w / frames.across, h = found.h / frames.down;
  if (!Number.isInteger(w) || !Number.isInteger(h)) return null;
  const left = frame % frames.across * w, top = Math.floor(frame / frames.across) * h;
  const cells = [];
  for (let y = 0; y < h; y++) cells.push(...found.cells.slice((top + y) * found.w + left, (top + y) * found.w + left + w));
  return { w, h, cells };
}

// Files that are dropped or pasted onto the page.

import { say } from './editor.js';
import { base64 } from './base64.js';
import { mayBeEnlarged } from './enlarged.js';

/** @typedef {import('./bridge.js').Page} Page */

/** The largest file that is looked at, bytes. */
const largest = 64 << 20;

/** @param {Page} page */
export function setUpFiles(page) {
  window.addEventListener('dragover', (event) => { event.preventDefault(); event.stopImmediatePropagation(); }, { capture: true });
  window.addEventListener('drop', (event) => {
    event.preventDefault();
    event.stopImmediatePropagation();
    const file = event.dataTransfer?.files[0];
    if (file) void take(page, file);
  }, { capture: true });
  document.addEventListener('paste', (event) => {
    const file = event.clipboardData?.files[0];
    if (!file) return;
    event.preventDefault();
    void take(page, file);
  });
}

/** Opens a project file, or makes a sprite of a picture: of a small PNG a cell a
 * pixel, unless it looks enlarged; of any other the grid is looked for.
 * @param {Page} page
 * @param {File} file */
export async function take(page, file) {
  if (file.size > largest) {
    say(`${file.name} is too large to be a project or a sprite.`);
    return;
  }
  const data = new Uint8Array(await file.arrayBuffer());
  const isPNG = data[0] === 0x89 && data[1] === 0x50;
  const side = (/** @type {number} */ at) => new DataView(data.buffer).getUint32(at);
  if (isPNG ? data.length > 24 && Math.max(side(16), side(20)) > 256 : /^image\//.test(file.type)) {
    void (await import('./regrid.js')).showRegrid(page, file);
  } else if (isPNG) {
    const asItIs = () => page.editor.do('importSprite', { name: file.name, png: base64(data) });
    if (await looksEnlarged(file)) void (await import('./regrid.js')).showRegridOr(page, file, asItIs);
    else asItIs();
  } else page.editor.do('open', { project: new TextDecoder().decode(data) });
}

/** @param {File} file a small PNG */
async function looksEnlarged(file) {
  const bitmap = await createImageBitmap(file).catch(() => null); // the editor says what is wrong
  if (!bitmap) return false;
  const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d', { willReadFrequently: true });
  context?.drawImage(bitmap, 0, 0);
  return context !== null && mayBeEnlarged(context.getImageData(0, 0, bitmap.width, bitmap.height));
}

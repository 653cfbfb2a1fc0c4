// The project and the open sprite as files, given to the maker.

import { give } from './share.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page */
export async function saveProject(page) {
  const file = page.editor.do('save');
  if (file) await give(file.name, new TextEncoder().encode(file.text), 'application/json');
}

/** @param {Page} page */
export async function savePicture(page) {
  const file = page.editor.do('exportPicture', { scale: 8 });
  if (file) await give(file.name, Uint8Array.from(atob(file.png), (c) => c.charCodeAt(0)), 'image/png');
}

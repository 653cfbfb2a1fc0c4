// One sheet's files, singly; and a sheet on paper, at true scale.

import { draw, make } from './dom.js';
import { download } from './dialogs.js';
import { say } from './editor.js';
import { canShare, fileOf, share } from './share.js';
import { face, title } from './sheetbench.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./types').Sheet} Sheet */

const types = /** @type {Record<string, string>} */ ({ svg: 'image/svg+xml', dxf: 'application/octet-stream', nc: 'text/plain' });

/** Whether this system has a share sheet for such files. */
export const shareable = () => canShare('sheet.nc', 'text/plain');

/** @type {{path: string, revision: number, file: File} | null} made before, so that a second press can share it at once */
let made = null;

/** Saves or shares a file of the bundle; it is made and checked with all others.
 * @param {Page} page
 * @param {string} path
 * @param {'save' | 'share'} how */
export async function saveFile(page, path, how) {
  const revision = page.editor.core.revision();
  try {
    if (made?.path !== path || made.revision !== revision) {
      say('Making the files and checking them against the drawing…');
      const { data } = await page.maker.order('file', { path });
      const name = path.split('/').pop() ?? path;
      made = { path, revision, file: fileOf(name, data, types[name.split('.').pop() ?? ''] ?? 'application/octet-stream') };
    }
    const { file } = made;
    if (how === 'share') {
      if (await share(file) === 'later') say(`${file.name} is ready: press Share again to hand it on.`);
      return;
    }
    download(file.name, new Uint8Array(await file.arrayBuffer()), file.type);
    say(`${file.name} is saved.`);
  } catch (error) {
    say(/** @type {Error} */ (error).message);
  }
}

/** Prints a sheet at true scale, to be cut by hand along the lines; a bar of
 * 50 mm tells whether the printer kept the scale.
 * @param {Page} page
 * @param {Sheet} sheet */
export function printSheet(page, sheet) {
  document.getElementById('print')?.remove();
  const svg = draw('svg', { viewBox: `0 0 ${sheet.width} ${sheet.height}` });
  svg.style.width = `${sheet.width}mm`;
  svg.style.height = `${sheet.height}mm`;
  for (const stroke of sheet.strokes) if (!stroke.pass) svg.append(draw('path', { d: stroke.d, class: stroke.kind }));
  const parts = page.sheets.model?.parts ?? [];
  const index = page.sheets.model?.sheets.indexOf(sheet);
  for (const part of parts) {
    if (part.sheet !== index || part.numbered === 'part') continue;
    const high = Math.min(2.5, part.height * 0.6, part.label[2] / (part.number.length * 0.65));
    if (high > 0.7) svg.append(draw('text', { x: part.label[0], y: part.label[1] + high * 0.36, 'font-size': high.toFixed(2) }, part.number));
  }
  svg.append(draw('path', { class: 'bar', d: `M${sheet.width - 55} ${sheet.height - 2}h50m-50-1v2m50-2v2` }),
    draw('text', { x: sheet.width - 56, y: sheet.height - 1.2, 'font-size': 2.5, class: 'bar-words' }, `${title(sheet)}, ${face(sheet)}. This bar is 50 mm:`));
  const print = make('div', { id: 'print', 'aria-hidden': 'true' });
  print.append(svg);
  document.body.append(print);
  const style = new CSSStyleSheet();
  style.insertRule(`@page { size: ${sheet.width}mm ${sheet.height}mm; margin: 0; }`);
  document.adoptedStyleSheets = [style];
  window.print();
}

// The cutting files: what is in them, what still stands, then the download.

import { make } from './dom.js';
import { download, open } from './dialogs.js';
import { showCutting } from './cutting.js';
import { count, size, span } from './lengths.js';
import { canShare, fileOf, share } from './share.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page */
export function showFiles(page) {
  const { view } = page.editor;
  const { plan } = view;
  const name = /** @type {HTMLInputElement} */ (make('input', { type: 'text', value: fileName(view.project), size: 22, autocomplete: 'off' }));
  const state = make('p', { role: 'status', class: 'quiet' });
  const get = /** @type {HTMLButtonElement} */ (make('button', { type: 'button', class: 'next' }, 'Download'));
  const send = /** @type {HTMLButtonElement} */ (make('button', { type: 'button', class: 'firm', hidden: !canShare('sprites.zip', 'application/zip') }, 'Share'));
  /** @type {{revision: number, bundle: Uint8Array} | null} made before, so that a second press can share it at once */
  let made = null;
  const handOver = async (/** @type {(file: File, bundle: Uint8Array) => Promise<string>} */ hand) => {
    get.disabled = send.disabled = true;
    state.textContent = 'Making the files and checking them against the drawing…';
    try {
      const revision = page.editor.core.revision();
      if (made?.revision !== revision) made = { revision, bundle: await page.maker.bundle() };
      const { bundle } = made;
      const words = await hand(fileOf(`${fileName(name.value)}.zip`, bundle, 'application/zip'), bundle);
      state.textContent = `Checked, and ${(bundle.length / 1e6).toFixed(1)} MB large.${words}`;
    } catch (error) {
      state.textContent = /** @type {Error} */ (error).message;
    }
    get.disabled = send.disabled = false;
  };
  get.onclick = () => handOver(async (file, bundle) => { download(file.name, bundle, file.type); return ''; });
  send.onclick = () => handOver(async (file) => (await share(file) === 'later' ? ' Press Share again to hand it on.' : ''));
  const [w, h] = view.sprite.size;
  const dialog = open('Cutting files', [
    make('p', {}, 'A zip with every layer of every sprite as DXF and SVG, to one scale; the sheets, ready to cut; the guide for putting it together; a picture of each sprite; job.json with all totals; the project, to open again; and a README.'),
    make('p', {}, `${count(view.sprites.length, 'sprite')}. ${view.sprite.name}: ${size(w, h, view.hand.units)}, ${count(plan.parts, 'part')} on ${count(plan.heights, 'height')}, about ${span(plan.seconds)} to glue.`),
    ...(plan.findings.length ? [
      make('h3', {}, 'Before you cut'),
      make('ul', {}, ...plan.findings.map((finding) => make('li', {}, finding.text))),
    ] : []),
    make('p', { class: 'quiet' }, 'Never leave a running laser. Extraction on, eyes protected as the machine’s manual says, and something to put out a fire at hand: card burns. Know what your card is made of; never laser PVC or other vinyls. The machine’s manual and local rules come first.'),
    make('label', {}, 'Name', name),
    make('div', { class: 'row' }, get, send,
      make('button', { type: 'button', class: 'plain', onclick: () => { dialog.close(); showCutting(page); } }, 'How it is cut…')),
    state,
  ]);
}

/** @param {string} name */
export function fileName(name) {
  return name.toLowerCase().replace(/\.zip$/, '').replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '').slice(0, 40) || 'sprites';
}

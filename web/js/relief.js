// The controls about the relief: size, turning, pulling apart, single layers.

import { byId, make, refill, write } from './dom.js';
import { count, length, size } from './lengths.js';
import { showCalibration, showSize } from './size.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./types').Pointed} Pointed */

/** Lengths that a scale bar may have, mm or inches. */
const bars = { mm: [1, 2, 5, 10, 20, 30, 50, 100, 200, 500], in: [0.05, 0.1, 0.25, 0.5, 1, 2, 5, 10, 20] };

/** @param {Page} page */
export function setUpRelief(page) {
  const { editor } = page;
  const sizeButton = /** @type {HTMLButtonElement} */ (byId('relief-size'));
  sizeButton.disabled = false;
  sizeButton.onclick = () => showSize(page);

  const faceOn = make('button', { type: 'button', onclick: () => editor.do('turnRelief', { turn: 0, tilt: 0 }) }, 'Face on');
  const real = make('button', { type: 'button', title: 'Real size, one to one', onclick: () => {
    if (editor.view.hand.relief.size === 'real') editor.do('showSize', { size: 'fit' });
    else if (editor.view.calibration.pxPerMm === 0) showCalibration(page);
    else editor.do('showSize', { size: 'real' });
  } }, '1 : 1');
  const layers = make('button', { type: 'button', 'aria-haspopup': 'dialog', onclick: () => showLayers(page) }, 'Layers');
  const apart = /** @type {HTMLInputElement} */ (make('input', { type: 'range', min: 0, max: 1, step: 0.01, 'aria-label': 'Pull the layers apart', title: 'Pull the layers apart' }));
  apart.addEventListener('input', () => editor.do('pullApart', { by: Number(apart.value) }));
  byId('relief-turns').append(apart, layers, real);
  const larger = make('button', { type: 'button', 'aria-pressed': 'false', onclick: () => {
    const on = byId('page').toggleAttribute('data-large');
    larger.setAttribute('aria-pressed', String(on));
    larger.textContent = on ? 'Smaller' : 'Larger';
    page.arrange();
  } }, 'Larger');
  byId('relief-head-act').append(faceOn, larger);

  editor.listen((view) => {
    const { units, relief } = view.hand;
    const [w, h] = view.sprite.size;
    refill(sizeButton, `${w} ${h} ${view.sprite.cell} ${units}`, () => [
      size(w, h, units), make('small', {}, ` · ${length(view.sprite.cell, units)} a cell`)]);
    write(byId('relief-note'), view.plan.stale && view.plan.parts > 0 ? 'as it was' : '');
    if (document.activeElement !== apart) apart.value = String(relief.apart);
    real.setAttribute('aria-pressed', String(relief.size === 'real'));
    layers.setAttribute('aria-pressed', String(relief.show !== 'all'));
    faceOn.hidden = relief.turn === 0 && relief.tilt === 0;
    byId('relief').setAttribute('aria-label', `${view.sprite.name} as it will stand: ${view.plan.parts} parts on ${view.plan.heights} heights, ${size(w, h, units)}`);
    showBar(view.preview.pxPerMm, units);
    showPointed(page, units);
    showNames(page);
  });
}

/** @typedef {{name: string, parts: number, x: number, y: number}} LayerPlace */

/** Pulled apart, each layer has its name beside it.
 * @param {Page} page */
function showNames(page) {
  const { apart } = page.editor.view.hand.relief;
  /** @type {LayerPlace[]} */
  const places = apart > 0.12 ? JSON.parse(page.editor.core.layers()) : [];
  if (!places.length) {
    refill(byId('relief'), '', () => []);
    return;
  }
  const box = byId('relief').getBoundingClientRect();
  // In one column right of all layers, in their order, each as near to its
  // layer as the others leave room.
  const x = Math.min(Math.max(...places.map((place) => place.x)) - box.x + 8, box.width - 108);
  const step = Math.min(17, (box.height - 16) / Math.max(places.length, 1));
  let free = 10;
  const shown = [...places].reverse().map((place) => {
    const y = Math.max(place.y - box.y, free);
    free = y + step;
    return { name: place.name, y: Math.round(y) };
  });
  let room = box.height - 10; // and none below the panel
  for (const each of [...shown].reverse()) {
    each.y = Math.round(Math.min(each.y, room));
    room = each.y - step;
  }
  refill(byId('relief'), JSON.stringify([shown, x]), () => shown.map((place) => {
    const label = make('span', { class: 'layer-name', 'aria-hidden': 'true' }, place.name);
    label.style.left = `${x}px`;
    label.style.top = `${place.y}px`;
    return label;
  }));
}

/** @param {number} pxPerMm
 * @param {'mm'|'in'} units */
function showBar(pxPerMm, units) {
  const px = units === 'in' ? pxPerMm * 25.4 : pxPerMm;
  const bar = byId('relief-bar');
  const lengths = bars[units];
  const best = [...lengths].reverse().find((l) => l * px <= 58) ?? lengths[0];
  const width = `${Math.round(best * px * 100) / 100}px`;
  bar.hidden = !(px > 0);
  if (bar.style.width !== width) bar.style.width = width;
  write(byId('relief-bar-words'), px > 0 ? `${best} ${units}` : '');
}

/** Says what part is pointed at.
 * @param {Page} page
 * @param {'mm'|'in'} units */
function showPointed(page, units) {
  /** @type {Pointed | null} */
  const part = JSON.parse(page.editor.core.pointed());
  const place = byId('relief-part');
  place.hidden = !part;
  if (part) write(place, `${part.stock}, ${size(part.width, part.depth, units)}, layer ${part.layer}, rests on ${part.on}`);
}

/** @param {Page} page */
async function showLayers(page) {
  const { open, choice } = await import('./dialogs.js');
  /** @type {LayerPlace[]} */
  const names = JSON.parse(page.editor.core.layers());
  const { relief } = page.editor.view.hand;
  const set = (/** @type {string} */ show, /** @type {number} */ layer) => page.editor.do('showLayers', { show, layer });
  const which = names.map((layer, i) => /** @type {[string, string]} */ ([String(i + 1), `${i + 1}: ${layer.name}, ${count(layer.parts, 'part')}`])).reverse();
  let { show, layer } = relief;
  open('Layers', [
    choice('Show', show, [['all', 'all layers'], ['up-to', 'up to one layer'], ['one', 'one layer alone']], (v) => { show = /** @type {any} */ (v); set(show, layer); }),
    choice('Layer', String(layer), which, (v) => { layer = Number(v); if (show === 'all') show = 'one'; set(show, layer); }),
    choice('Card', relief.card, [['textured', 'with its texture'], ['plain', 'plain']], (v) => page.editor.do('cardLook', { card: v })),
  ]);
}

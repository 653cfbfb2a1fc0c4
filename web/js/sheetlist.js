// Beside the sheets: what is pointed at, what to know before cutting, and the
// list to cut from, large enough to be read from beside the machine.

import { byId, draw, make, refill, write } from './dom.js';
import { count, length, size, span } from './lengths.js';
import { Sheets } from './sheets.js';
import { face, SheetBench, tintOf, title } from './sheetbench.js';
import { printSheet, saveFile, shareable } from './sheetfiles.js';
import { showTonight } from './tonight.js';
import { showBench } from './mybench.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./types').Sheet} Sheet
 *  @typedef {import('./types').SheetPart} Part */

/** @param {Page} page
 * @param {Sheets} sheets
 * @param {SheetBench} bench */
export function setUpSheetList(page, sheets, bench) {
  const { editor } = page;
  const button = (/** @type {string} */ words, /** @type {() => void} */ act, name = '') =>
    make('button', { type: 'button', class: 'plain', 'data-name': name || words, onclick: act }, words);
  byId('sheets-tools').append(
    make('button', { type: 'button', class: 'plain', 'aria-label': 'Closer', onclick: () => bench.zoom(1.5) }, '+'),
    make('button', { type: 'button', class: 'plain', 'aria-label': 'Further away', onclick: () => bench.zoom(1 / 1.5) }, '−'),
    button('All', () => bench.zoom(0)));
  const show = () => {
    const { view } = editor;
    const { model } = sheets;
    const open = view.view === 'Sheets';
    if (!open) return;
    showHead(sheets, view);
    showActs(page, sheets, button);
    refill(byId('sheets-part'), JSON.stringify([view.hand.sheets.sprite, view.hand.sheets.copy, view.hand.sheets.part, model?.revision, view.choice.parts, view.hand.units, sheets.searching, sheets.picked]),
      () => partCard(page, sheets, bench, button));
    refill(byId('sheets-findings'), JSON.stringify(model?.findings ?? []), () => (model?.findings ?? []).map((finding) =>
      make('li', { class: finding.severity }, finding.text, ...(finding.parts.length ? [make('small', {}, ` ${finding.parts.slice(0, 12).join(', ')}${finding.parts.length > 12 ? ' …' : ''}`)] : []), ...finding.remedies.slice(0, 1).map((remedy) =>
        button(remedy.text, () => editor.do(remedy.command, remedy.args), remedy.command)),
      ...(finding.code === 'power-unknown' ? [button('Enter them…', () => showBench(page))] : []),
      ...(finding.code === 'stock-unknown' || finding.code === 'stock-never-laser' ? [button('Say what it is…', () => showBench(page))] : []))));
    const { sheet: chosen, at } = view.hand.sheets;
    const list = byId('sheets-list');
    refill(list, JSON.stringify([model?.sheets.map((s) => s.print), model?.machine, model?.sheets.map((s) => [s.power, s.speed, s.passes]), chosen, view.hand.cut]),
      () => (model?.sheets ?? []).map((sheet, i) => row(page, sheets, bench, sheet, i, sheet.print === chosen)));
    const slider = /** @type {HTMLInputElement | null} */ (list.querySelector('input[type="range"]'));
    if (slider && slider.value !== String(at) && document.activeElement !== slider) slider.value = String(at);
    const words = list.querySelector('.at');
    const playing = model?.sheets.find((s) => s.print === chosen);
    if (words && playing) write(words, at ? `line ${Math.min(Math.ceil(at), playing.strokes.length)} of ${playing.strokes.length}` : `${playing.strokes.length} lines`);
  };
  editor.listen(show);
  sheets.listen(show);
}

/** @param {Sheets} sheets
 * @param {import('./types').View} view */
function showHead(sheets, view) {
  const { model } = sheets;
  const placed = model?.parts.filter((p) => p.sheet >= 0).length ?? 0;
  const seconds = model?.sheets.reduce((sum, s) => sum + s.seconds, 0) ?? 0;
  const head = byId('sheets-count');
  const print = model ? `${model.sheets.length} ${placed} ${seconds} ${model.machine.name} ${JSON.stringify(view.choice)}` : '';
  refill(head, print, () => (model ? [
    make('b', {}, String(model.sheets.length)), ` ${model.sheets.length === 1 ? 'sheet' : 'sheets'}, ${count(placed, 'part')}, about ${span(seconds)} on ${model.machine.name}`,
    ...(view.choice.parts.length ? [make('p', { class: 'quiet' }, `Only to be cut again: ${view.choice.parts.join(', ')}.`)]
      : view.choice.some ? [make('p', { class: 'quiet' }, `Tonight: ${view.sprites.filter((_, i) => view.choice.copies[i] > 0).map((name, i) => name).join(', ')}.`)] : []),
  ] : []));
}

/** @param {Page} page
 * @param {Sheets} sheets
 * @param {(words: string, act: () => void, name?: string) => HTMLElement} button */
function showActs(page, sheets, button) {
  const { view } = page.editor;
  const { model } = sheets;
  const kept = view.laid.found + view.laid.moved;
  const { picked } = sheets;
  const print = [sheets.searching > 0, model?.better, kept > 0, view.choice.parts.length, model !== null, JSON.stringify(picked)].join();
  refill(byId('sheets-acts'), print, () => {
    if (sheets.searching) {
      return [button('Stop, and keep this', () => sheets.enough('keep')), button('Leave it as it was', () => sheets.enough('leave'))];
    }
    if (picked) {
      return [
        make('p', {}, picked.length ? `To be cut again: ${picked.join(', ')}.` : 'Tap the parts that are lost, burnt or torn.'),
        ...(picked.length ? [button(`Cut ${picked.length === 1 ? 'it' : `these ${picked.length}`} again`, () => sheets.cutPicked(), 'cut-picked')] : []),
        button('Leave it', () => sheets.pick(null), 'unpick'),
      ];
    }
    return [
      ...(view.choice.parts.length ? [button('Pick others…', () => {
        const parts = [...view.choice.parts];
        page.editor.do('cutAgain', { parts: '' });
        sheets.pick(parts);
      }, 'pick')] : model?.parts.length ? [button('Cut again…', () => sheets.pick([]), 'pick')] : []),
      ...(view.choice.parts.length ? [button('Back to all parts', () => page.editor.do('cutAgain', { parts: '' }), 'all')] : [button('Cut tonight…', () => showTonight(page))]),
      button('My bench…', () => showBench(page)),
      ...(model && model.sheets.length && model.better !== 'no more' && !view.choice.parts.length ? [button('Look for tighter', () => void sheets.search())] : []),
      ...(kept && !view.choice.parts.length ? [button('Lay anew', () => page.editor.do('layAnew'))] : []),
    ];
  });
}

/** What the maker wants to know of a part.
 * @param {Page} page
 * @param {Sheets} sheets
 * @param {SheetBench} bench
 * @param {(words: string, act: () => void, name?: string) => HTMLElement} button
 * @returns {Node[]} */
function partCard(page, sheets, bench, button) {
  const { editor } = page;
  const part = sheets.pointed;
  const { model } = sheets;
  if (!part || !model) return [];
  const { units } = editor.view.hand;
  const stock = model.sheets[part.sheet]?.name ?? part.stock;
  const held = { locked: 'locked', moved: 'moved by hand', found: 'kept', '': '' }[part.held];
  const chip = make('span', { class: 'tint', 'aria-hidden': 'true' });
  chip.style.background = tintOf(part.index);
  const again = editor.view.choice.parts;
  const acts = [button('Show it in the drawing', () => showInDrawing(page, part), 'show')];
  if (!again.length && part.sheet >= 0 && !sheets.searching) {
    acts.push(
      button('Turn', () => bench.nudge(0, 0, 1)),
      button(part.held === 'locked' ? 'Free it' : 'Lock it here', () => void editor.order('lockPart', { ...Sheets.named(part), held: part.held === 'locked' ? 'free' : 'locked' }).catch(() => {}), 'lock'));
  }
  if (sheets.picked) {
    acts.length = 1;
    acts.push(button(sheets.picked.includes(part.of) ? 'Not this one' : 'This one', () => sheets.toggle(part), 'toggle'));
  } else if (!again.includes(part.of)) acts.push(button(again.length ? 'Cut it again too' : 'Cut it again', () => editor.do('cutAgain', { parts: [...again, part.of].join(' ') }), 'again'));
  return [
    make('p', {}, chip, make('b', {}, part.number), ` ${part.sprite}`, model.parts.some((p) => p.copy > 1) ? `, copy ${part.copy}` : ''),
    make('p', { class: 'quiet' }, `${stock}, ${size(part.size[0], part.size[1], units)}, height ${part.level}, ${part.on ? `rests on ${part.on}` : 'rests on the board'}${part.of === part.number ? '' : `, a piece of ${part.of}`}${held ? `, ${held}` : ''}.`),
    ...(again.length || part.sheet < 0 || sheets.picked ? [] : [make('p', { class: 'quiet' }, 'Drag it, or move it with the arrow keys: it goes to the nearest free place.')]),
    make('div', { class: 'row' }, ...acts),
  ];
}

/** @param {Page} page
 * @param {Part} part */
function showInDrawing(page, part) {
  const { editor } = page;
  editor.do('showSprite', { name: part.sprite });
  if (part.key) editor.do('choose', { key: part.key });
  editor.do('showView', { view: 'Draw' });
  setTimeout(() => page.mark([{ x: part.cell[0], y: part.cell[1] }]), 200);
  light(page, part);
}

/** Lights a part in the relief, once that shows the drawing as it is.
 * @param {Page} page
 * @param {Part} part */
function light(page, part) {
  const { core } = page.editor;
  const revision = core.revision();
  const until = performance.now() + 20_000;
  const look = () => {
    const { sprite, plan, view } = JSON.parse(core.panels());
    if (core.revision() !== revision || sprite.name !== part.sprite || view !== 'Draw' || performance.now() > until) return;
    // The relief has the plan's parts a frame after the plan is here.
    if (plan.stale || !core.pointPart(part.order)) setTimeout(look, 100);
  };
  look();
}

/** A sheet of the list.
 * @param {Page} page
 * @param {Sheets} sheets
 * @param {SheetBench} bench
 * @param {Sheet} sheet
 * @param {number} index
 * @param {boolean} open
 * @returns {HTMLElement} */
function row(page, sheets, bench, sheet, index, open) {
  const { editor } = page;
  const machine = sheets.model?.machine ?? { kind: 'laser', unit: 'mm/s', name: '' };
  const done = editor.view.hand.cut?.includes(sheet.print);
  const tick = /** @type {HTMLInputElement} */ (make('input', { type: 'checkbox', checked: done, 'aria-label': `${title(sheet)} is cut`, 'data-name': `cut-${index}` }));
  tick.addEventListener('change', () => editor.do('markCut', { sheet: sheet.print, done: tick.checked ? 'cut' : 'to cut' }));
  const chip = make('span', { class: 'chip', 'aria-hidden': 'true' });
  chip.style.background = sheet.colour;
  const power = sheet.power && sheet.speed ? `${sheet.power} %, ${sheet.speed} ${machine.unit}, ${count(sheet.passes, 'pass').replace('passs', 'passes')}` : 'power and speed not entered';
  const file = (sheet.files.find((f) => f.endsWith('.nc')) ?? sheet.files[0]).replace('sheets/', '');
  const head = make('button', {
    type: 'button', class: 'sheet-row', 'aria-expanded': String(open), 'data-name': `sheet-${index}`, onclick: () => {
      editor.do('showSheet', { sheet: open ? '' : sheet.print });
      if (!open) bench.lookAt(index);
    },
  }, chip, make('span', { class: 'words' },
    make('span', { class: 'first' }, make('b', {}, sheet.name), make('b', { class: 'time' }, clock(sheet.seconds))),
    make('span', { class: sheet.face === 'down' ? 'loud' : '' }, sheet.of > 1 ? `Sheet ${sheet.number} of ${sheet.of}, ` : '', sheet.face === 'down' ? 'good face DOWN' : 'good face up', sheet.offcut ? ', an offcut' : ''),
    ...(machine.kind === 'laser' ? [make('span', {}, power)] : []),
    make('span', { class: 'quiet' }, file)));
  const item = make('li', { class: done ? 'done' : '' }, make('div', { class: 'line' }, make('label', { class: 'tick' }, tick), head));
  if (open) item.append(sheetActs(page, sheet));
  return item;
}

/** Files, print and show of the chosen sheet.
 * @param {Page} page
 * @param {Sheet} sheet */
function sheetActs(page, sheet) {
  const { editor } = page;
  const { units } = editor.view.hand;
  const kinds = /** @type {[string, string][]} */ (sheet.files.map((path) => [path, path.endsWith('-bounds.nc') ? 'Bounds' : path.endsWith('.nc') ? 'Machine file' : path.endsWith('.svg') ? 'SVG' : 'DXF']));
  const save = kinds.map(([path, kind]) => make('button', { type: 'button', class: 'plain', 'data-name': `save ${kind}`, onclick: () => void saveFile(page, path, 'save') }, `Save ${kind}`));
  const share = shareable() ? kinds.map(([path, kind]) => make('button', { type: 'button', class: 'plain', onclick: () => void saveFile(page, path, 'share') }, `Share ${kind}`)) : [];
  const slider = /** @type {HTMLInputElement} */ (make('input', { type: 'range', min: 0, max: sheet.strokes.length, step: 'any', value: editor.view.hand.sheets.at, 'aria-label': 'How far it is cut', 'data-name': 'at' }));
  slider.addEventListener('input', () => editor.do('showSheet', { sheet: sheet.print, at: Number(slider.value) }));
  return make('div', { class: 'sheet-acts' },
    make('p', { class: 'quiet' }, `${size(sheet.width, sheet.height, units)}, ${count(sheet.parts, 'part')}, ${length(sheet.cut, units)} of cuts, kerf ${length(sheet.kerf, units)}.`),
    make('div', { class: 'row play' },
      make('button', { type: 'button', class: 'plain', 'data-name': 'play', onclick: () => play(page, sheet) }, 'Play the cut'), slider, make('span', { class: 'at quiet' })),
    make('div', { class: 'row' }, ...save, ...share, make('button', { type: 'button', class: 'plain', 'data-name': 'print', onclick: () => printSheet(page, sheet) }, 'Print at true scale')));
}

/** How long a whole show takes, ms. */
const showTime = 12_000;

/** Plays the cuts in their order; a second press stops.
 * @param {Page} page
 * @param {Sheet} sheet */
function play(page, sheet) {
  if (page.playing) {
    cancelAnimationFrame(page.playing);
    page.playing = 0;
    return;
  }
  const { editor } = page;
  const last = sheet.strokes.length;
  const ends = endsOf(sheet);
  const all = ends[last - 1] ?? 0;
  const { at: now } = editor.view.hand.sheets;
  const from = now >= last ? 0 : now;
  const whole = Math.floor(from);
  const begun = whole ? ends[whole - 1] : 0;
  const done = begun + (from - whole) * ((ends[whole] ?? begun) - begun); // mm
  const began = performance.now();
  const step = () => {
    const { sheets } = JSON.parse(editor.core.panels()).hand;
    const at = linesAt(ends, Math.min(all, done + (performance.now() - began) / showTime * all));
    if (sheets.sheet !== sheet.print || editor.view.view !== 'Sheets') {
      page.playing = 0;
      return;
    }
    editor.do('showSheet', { sheet: sheet.print, at });
    page.playing = at < last ? requestAnimationFrame(step) : 0;
  };
  page.playing = requestAnimationFrame(step);
}

/** How much is cut at the end of each line, mm.
 * @param {Sheet} sheet */
function endsOf(sheet) {
  let sum = 0;
  return sheet.strokes.map((stroke) => (sum += /** @type {SVGPathElement} */ (draw('path', { d: stroke.d })).getTotalLength()));
}

/** How many lines so much of cuts is, the last one in part.
 * @param {number[]} ends as endsOf gives them
 * @param {number} mm */
function linesAt(ends, mm) {
  const n = ends.findIndex((end) => end > mm);
  if (n < 0) return ends.length;
  const begun = n ? ends[n - 1] : 0;
  return Math.max(0.001, n + (mm - begun) / (ends[n] - begun));
}

/** @param {number} seconds */
function clock(seconds) {
  return seconds < 60 ? `${seconds} s` : `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')} min`;
}

// Where a part is found and where it goes: its sheet as it came off the machine,
// and the stack pulled apart, with the part lit in both.

import { words as said } from './assemblewords.js';
import { byId, draw, write } from './dom.js';
import { edge } from './steppicture.js';

/** @typedef {import('./assembly.js').Assembly} Assembly
 *  @typedef {import('./assembly.js').Build} Build */

/** How the stack leans back, as in the guide. */
const lean = 0.35;
const flat = 0.45;

let drawnSheet = '';
let drawnStack = '';

/** @param {Assembly} assembly */
export function showWhere(assembly) {
  const { build, model } = assembly;
  const at = build && build.lit >= 0 ? build.sprite.parts[build.lit].places[build.copy - 1] : undefined;
  const sheet = model?.sheets[at?.sheet ?? -1];
  write(byId('in-sheet-words'), sheet && at && model ? onSheets(model, [at, ...at.more]) : !build || build.lit < 0 ? '' : model?.laid ? said.noSheet : said.laying);
  const print = build ? JSON.stringify([model?.revision, model?.laid, build.sprite.name, build.copy, build.step, build.lit, build.states]) : '';
  const svg = byId('in-sheet');
  svg.toggleAttribute('hidden', !sheet);
  if (print !== drawnSheet) {
    drawnSheet = print;
    if (build && sheet && model) {
      svg.setAttribute('aria-label', said.onSheet(build.sprite.parts[build.lit].number));
      const parts = /** @type {SVGGElement} */ (draw('g', {}, ...sheetParts(build, model, at?.sheet ?? -1)));
      svg.replaceChildren(draw('rect', { class: 'paper', width: sheet.width, height: sheet.height }), parts);
      // What of the sheet is used, so that small parts can be seen.
      const used = parts.getBBox();
      const rim = 8;
      const [x, y] = [Math.max(-2, used.x - rim), Math.max(-2, used.y - rim)];
      const [right, low] = [Math.min(sheet.width + 2, used.x + used.width + rim), Math.min(sheet.height + 2, used.y + used.height + rim)];
      svg.setAttribute('viewBox', `${x} ${y} ${right - x} ${low - y}`);
    } else svg.replaceChildren();
  }
  if (print !== drawnStack) {
    drawnStack = print;
    if (build) drawStack(build);
    else byId('in-stack').replaceChildren();
  }
}

/** The sheets that a part's pieces lie on.
 * @param {import('./types').Assembly} model
 * @param {{sheet: number}[]} spots */
function onSheets(model, spots) {
  const names = [...new Set(spots.map((spot) => spot.sheet))].map((n) => (model.sheets[n] ? said.sheet(model.sheets[n]) : said.onNone));
  return spots.length > 1 ? said.piecesOn(spots.length, names) : names.join('');
}

/** All parts of a sheet; those of the step in their colour, the lit one ringed.
 * @param {Build} build
 * @param {import('./types').Assembly} model
 * @param {number} sheet
 * @returns {Node[]} */
function sheetParts(build, model, sheet) {
  /** @type {Node[]} */
  const lit = [];
  const rest = model.sprites.flatMap((sprite) => sprite.parts.flatMap((part, i) => part.places.flatMap((place, c) => {
    const here = [place, ...place.more].filter((spot) => spot.sheet === sheet);
    if (!here.length) return [];
    const d = here.map((spot) => spot.d).join('');
    const ours = sprite === build.sprite && c + 1 === build.copy;
    const path = draw('path', { d, class: ours && build.states[i] !== '' ? 'gone' : 'part' });
    if (ours && build.now?.parts.includes(i) && build.states[i] === '') path.style.fill = sprite.stocks[part.stock].colour;
    if (ours && i === build.lit) lit.push(draw('path', { d, class: 'ring' }));
    return [path];
  })));
  return [...rest, ...lit];
}

/** @param {Build} build */
function drawStack(build) {
  const { sprite } = build;
  const across = sprite.width + sprite.height * lean;
  const up = sprite.height * flat;
  const rise = sprite.heights > 1 ? Math.max(up * 0.16, Math.min(up + 4, (across * 1.15 - up) / (sprite.heights - 1))) : 0;
  const high = up + rise * (sprite.heights - 1);
  const svg = byId('in-stack');
  const words = Math.max(across, high) * 0.09;
  svg.setAttribute('viewBox', `-2 -2 ${across + words + 4} ${high + 4}`);
  const part = build.lit >= 0 ? sprite.parts[build.lit] : null;
  svg.setAttribute('aria-label', part ? said.inStack(part.number, part.level, sprite.heights) : said.stack);
  const levels = Array.from({ length: sprite.heights }, (_, k) => {
    const low = high - rise * k;
    const group = draw('g', { transform: `matrix(1 0 ${-lean} ${flat} ${sprite.height * lean} ${low - up})` });
    sprite.parts.forEach((p, i) => {
      if (p.level !== k + 1) return;
      const { colour } = sprite.stocks[p.stock];
      const path = draw('path', { d: p.d, class: i === build.lit || build.now?.parts.includes(i) ? 'new' : build.placed.has(i) ? 'lying' : build.now ? 'later' : 'new' });
      if (path.getAttribute('class') === 'new') {
        path.style.fill = colour;
        path.style.stroke = edge(colour);
      }
      group.append(path);
      if (i === build.lit) group.append(draw('path', { d: p.d, class: 'ring' }));
    });
    const label = draw('text', { x: across + words * 0.3, y: low - up / 2 + words * 0.25, 'font-size': (words * 0.75).toFixed(2), class: part?.level === k + 1 ? 'level here' : 'level' }, String(k + 1));
    return [group, label];
  });
  svg.replaceChildren(...levels.flat());
}

// What lies between the heights of the stack: tape, or what lifts all cards of a
// height: foam, or spacers that the machine cuts.

import { make } from './dom.js';
import { choice, field, open } from './dialogs.js';
import { showCost, weigh } from './cost.js';
import { digits, length, toMm } from './lengths.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./types').View} View
 *  @typedef {import('./types').Side} Side */

export const tape = 0.1; // mm; package project, Tape
export const air = 2; // mm below the cover, at least; package project, AirToCover
const foams = [1, 2, 3]; // mm, as foam tape and pads are sold (common practice, no source)

/** How thick what lies under the cards of a height is, mm.
 * @param {View['style']} style
 * @param {number} height */
export function gapUnder(style, height) {
  return (height === 1 ? style.foamLift : height === style.float ? style.floatLift : 0) || tape;
}

/** Opens what lies under each height, the one nearest to what was tapped first.
 * @param {Page} page
 * @param {number} nearest */
export function showGaps(page, nearest) {
  const { editor } = page;
  /** @type {Side[]} */
  const sides = JSON.parse(editor.core.side());
  const shelf = editor.run('shelf'); // asked once: an order is a change, and each change fills the rows again
  const rows = make('div', { class: 'gaps' });
  const total = make('p', { class: 'quiet', role: 'status' });
  const cost = make('p', { class: 'cost', hidden: true });
  const cover = field('', '', (text) => {
    const mm = text.trim() === '' ? 0 : toMm(text, editor.view.hand.units);
    editor.do('setCover', { mm });
  }, { placeholder: 'none' });
  const heights = Math.max(0, ...sides.map((side) => side.height));
  const fill = () => {
    const { style, plan, settings, hand } = JSON.parse(editor.core.panels());
    const at = [...rows.children].indexOf(/** @type {Element} */ (document.activeElement?.closest('label'))); // rows come again as they were
    const list = [];
    for (let height = heights; height >= 1; height--) {
      const names = [...new Set(sides.filter((side) => side.height === height).map((side) => side.name))];
      list.push(row(page, height, names.join(', '), style, hand.units, shelf));
      for (const side of sides) if (side.height === height && side.parts > 1) list.push(left(page, side, style));
      list.push(jig(page, height, style, shelf));
    }
    rows.replaceChildren(...list);
    rows.children[at]?.querySelector('select')?.focus();
    cover.row.firstChild?.replaceWith(`Cover over the board (${hand.units})`);
    if (document.activeElement !== cover.input) cover.input.value = settings.cover ? digits(settings.cover, hand.units) : '';
    total.textContent = `Stands ${length(plan.top, hand.units)} high; with ${length(air, hand.units)} of air the cover sits at ${length(plan.top + air, hand.units)} or higher.`;
    showCost(page, cost);
  };
  const dialog = open('Foam, spacers and tape', [
    make('p', {}, 'Tape holds each card on the one below. Foam lifts all cards of a height: the lowest, and one height more. Spacers do the same, cut by the machine from a card or board.'),
    rows, total, cost, cover.row,
  ]);
  fill();
  focus(rows, nearest || heights);
  editor.listen(() => { if (dialog.open) fill(); });
}

/** @param {Element} rows
 * @param {number} height */
function focus(rows, height) {
  /** @type {HTMLElement | null} */ (rows.querySelector(`[data-height="${height}"] select`))?.focus();
}

/** Whether a height has a jig, and from what.
 * @param {Page} page
 * @param {number} height
 * @param {View['style']} style
 * @param {any[]} shelf what it can be cut from */
function jig({ editor }, height, style, shelf) {
  const from = style.jigs.find((jig) => jig.height === height)?.stock ?? '';
  return choice(`${height}. A jig with a window for each part`, from, [['', 'none'], ...shelf.map((s) => /** @type {[string, string]} */ ([s.id, `cut from ${s.name}`]))],
    (stock) => editor.do('setJig', { height, stock }));
}

/** Whether a layer of several parts is laid part by part or stays whole.
 * @param {Page} page
 * @param {Side} side
 * @param {View['style']} style */
function left({ editor }, side, style) {
  const whole = style.whole.some(({ height, stock }) => height === side.height && stock === side.stock);
  return choice(`${side.height}. ${side.name}: its ${side.parts} parts are laid down`, whole ? 'whole' : 'apart',
    [['apart', 'one by one'], ['whole', 'all at once, from one frame']],
    (how) => editor.do('setWhole', { height: side.height, stock: side.stock, how }));
}

/** @param {Page} page
 * @param {number} height
 * @param {string} names of the cards that lie there
 * @param {View['style']} style
 * @param {'mm'|'in'} units
 * @param {any[]} shelf what spacers can be cut from */
function row(page, height, names, style, units, shelf) {
  const foam = height === 1 ? style.foam : height === style.float ? style.floatBy : 0;
  const stock = height === 1 ? style.foamStock : height === style.float ? style.floatStock : '';
  const thick = [...new Set([...foams, ...(foam && !stock ? [foam] : [])])].sort((a, b) => a - b);
  /** @type {[string, string][]} */
  const choices = [['0', `tape, ${length(tape, units)}`],
    ...thick.map((mm) => /** @type {[string, string]} */ ([String(mm), `foam, ${length(mm, units)}`])),
    ...shelf.map((s) => /** @type {[string, string]} */ ([s.id, `spacers of ${s.name}, ${length(s.thickness, units)}`]))];
  const small = style.refused.includes(height) ? ', too small for it: taped' : '';
  const label = choice(`${height}. ${names}${small}`, stock || String(foam), choices, (v) => {
    const mm = Number(v);
    const words = `Under ${names}: ${v === '0' ? 'tape' : mm ? 'foam' : 'spacers'}`;
    const lift = mm ? { mm } : { mm: foam || foams[0], stock: v };
    if (height === 1) weigh(page, words, 'setFoam', v === '0' ? { mm: 0 } : lift);
    else weigh(page, words, 'setFloat', v === '0' ? { height: 0 } : { height, ...lift });
  });
  label.setAttribute('data-height', String(height));
  label.classList.toggle('floats', gapUnder(style, height) > tape);
  return label;
}

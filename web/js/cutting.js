// How the sprites are cut: style, corners, border, sheets, kerf.

import { make } from './dom.js';
import { choice, field, open } from './dialogs.js';
import { weigh } from './cost.js';
import { digits, toMm } from './lengths.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page */
export function showCutting(page) {
  const { editor } = page;
  const { settings, style, hand, sprite } = JSON.parse(editor.core.panels());
  const { units } = hand;
  /** @param {string} words
   * @param {string} command
   * @param {number} mm
   * @param {string} [none] what an empty field means */
  const length = (words, command, mm, none) => field(`${words} (${units})`, mm || !none ? digits(mm, units) : '', (text) => {
    editor.do(command, { mm: none && text.trim() === '' ? 0 : toMm(text, units) });
  }, none ? { placeholder: none } : {}).row;
  /** @type {[string, string][]} */
  const shelf = editor.run('shelf').map((/** @type {any} */ stock) => [stock.id, stock.name]);
  const kerf = field(`Kerf (${units})`, settings.kerf === null ? '' : digits(settings.kerf, units), (text) => {
    editor.do('setKerf', text.trim() === '' ? {} : { mm: toMm(text, units) });
  }, { placeholder: 'usual' });
  const wide = field(`Sheets (${units})`, digits(settings.sheetWidth, units), () => sheet());
  const high = field('×', digits(settings.sheetHeight, units), () => sheet());
  const sheet = () => editor.do('setSheet', { w_mm: toMm(wide.input.value, units), h_mm: toMm(high.input.value, units) });
  open('How it is cut', [
    make('h3', {}, sprite.name),
    make('div', { class: 'row' },
      choice('Cards lie', style.style, [['fewest', 'so that parts are fewest'], ['side-by-side', 'side by side on a backer'], ['by-hand', 'in an order by hand']],
        (v) => weigh(page, 'Cards lie otherwise', 'setStyle', { style: v })),
      field('Heights beyond the colours', String(style.extraHeights), (text) => editor.do('extraHeights', { extra: Number(text) })).row,
      field('Copies', String(sprite.copies), (text) => editor.do('setCopies', { copies: Number(text) })).row),
    make('h3', {}, 'All sprites'),
    make('div', { class: 'row' },
      choice('Cells at a corner', settings.corners, [['join', 'joined'], ['apart', 'apart']], (corners) => editor.do('setCorners', { corners })),
      length('Joins', 'setJoin', settings.join, 'usual')),
    make('div', { class: 'row' },
      length('Border', 'setBorder', settings.border),
      choice('Its corners', settings.edge, [['square', 'square'], ['chamfered', 'cut off'], ['round', 'round']], (edge) => editor.do('setEdge', { edge }))),
    make('div', { class: 'row' },
      choice('Backer', settings.backer, [['', 'whatever suits'], ...shelf], (stock) => editor.do('setBacker', { stock })),
      choice('Its gaps', settings.inside, [['open', 'open'], ['filled', 'filled']], (inside) => editor.do('setInside', { inside }))),
    make('div', { class: 'row' }, wide.row, high.row, length('Margin', 'setMargin', settings.margin), length('Gap', 'setGap', settings.gap)),
    make('div', { class: 'row' }, kerf.row,
      choice('Parts are held by', settings.hold, [['tabs', 'tabs'], ['light', 'a cut so light that a thread stays']], (hold) => editor.do('setHold', { hold })),
      length('A tab stands', 'setTab', settings.tab),
      choice('Search for a tight layout', String(settings.effort), [...'0123456789'].map((n) => /** @type {[string, string]} */ ([n, n])),
        (n) => editor.do('setEffort', { effort: Number(n) }))),
    make('div', { class: 'row' },
      choice('Parts come onto sheets', settings.layout || 'nested', [['nested', 'on as few as may be'], ['register', 'every layer at its true place']], (layout) => editor.do('setLayout', { layout })),
      choice('A sprite’s parts of one card', settings.group || 'free', [['free', 'lie where they fit'], ['sprite', 'keep together on a sheet']], (group) => editor.do('setGroup', { group }))),
    make('div', { class: 'row' },
      choice('Two hidden pins keep a sprite in line', String(settings.pins), pinsOf(settings.pins, units), (mm) => editor.do('setPins', { mm: Number(mm) })),
      length('A jig’s windows are wider by', 'setJigClear', settings.jigClear),
      choice('Parts larger than any sheet', settings.large || 'whole', [['whole', 'stay whole'], ['split', 'are cut in pieces along the cells']], (large) => editor.do('setLarge', { large }))),
    make('div', { class: 'row' },
      choice('The guide is printed on', settings.paper, [['', 'what suits the sheets'], ['a4', 'A4'], ['letter', 'US Letter']], (paper) => editor.do('setGuide', { paper })),
      choice('It gives lengths in', settings.units, [['', 'what suits the paper'], ['mm', 'mm'], ['mm-in', 'mm and inches']], (mm) => editor.do('setGuide', { units: mm }))),
  ]);
}

/** Pins and wires as they are sold (common practice, no source), and what the project has.
 * @param {number} now
 * @param {'mm' | 'in'} units
 * @returns {[string, string][]} */
function pinsOf(now, units) {
  const usual = [0, 0.5, 0.8, 1, 1.5, 2];
  return [...new Set([...usual, now])].sort((a, b) => a - b).map((mm) => [String(mm), mm === 0 ? 'none' : `of ${digits(mm, units)} ${units}`]);
}

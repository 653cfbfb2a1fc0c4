// My bench: the machine, how it cuts each card, what is on the shelf, and test
// pieces to find all that out.

import { make } from './dom.js';
import { choice, chooseFile, download, field, open } from './dialogs.js';
import { say } from './editor.js';
import { digits, toMm } from './lengths.js';
import { give } from './share.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page */
export function showBench(page) {
  const { editor } = page;
  const { units } = editor.view.hand;
  const held = make('div', { class: 'bench-held' });
  const change = (/** @type {string} */ command, /** @type {any} */ args) => {
    const result = editor.do(command, args);
    if (result !== undefined) fill();
    return result;
  };
  const fill = () => {
    const focus = document.activeElement?.getAttribute('data-name');
    held.replaceChildren(...parts(page, units, change));
    if (focus) /** @type {HTMLElement | null} */ (held.querySelector(`[data-name="${CSS.escape(focus)}"]`))?.focus();
  };
  fill();
  open('My bench', [held]);
}

/** @param {Page} page
 * @param {'mm'|'in'} units
 * @param {(command: string, args: any) => any} change
 * @returns {Node[]} */
function parts(page, units, change) {
  const { editor } = page;
  /** @type {import('./types').Bench} */
  const bench = editor.run('bench');
  const { machine } = bench;
  const set = (/** @type {string} */ name, /** @type {unknown} */ value) => change('setMachine', { [name]: value });
  const length = (/** @type {string} */ words, /** @type {'bedWidth'|'bedHeight'|'left'|'right'|'bottom'|'top'|'thickest'|'bladeOffset'|'overcut'} */ name, empty = '') =>
    field(`${words} (${units})`, machine[name] || !empty ? digits(machine[name], units) : '', (text) => set(name, text.trim() ? toMm(text, units) : 0), { placeholder: empty, 'data-name': name }).row;
  const whole = (/** @type {string} */ words, /** @type {'fullPower'|'acceleration'|'travelSpeed'} */ name) =>
    field(words, String(machine[name]), (text) => set(name, Number(text)), { 'data-name': name }).row;
  const laser = machine.kind === 'laser';
  const knife = machine.kind === 'knife';
  const usual = machine.unit === 'mm/min' ? [300, 1800] : [5, 30];
  const rung = (/** @type {'power'|'speed'} */ what, /** @type {string} */ words, /** @type {0|1} */ end) => {
    const range = () => ladder[what] ?? (what === 'power' ? [10, 60] : usual);
    return field(words, String(range()[end]), (text) => {
      const value = Math.round(Number(text) || 0);
      ladder[what] = end ? [range()[0], value] : [value, range()[1]];
    }, { size: 5, 'data-name': `ladder ${what} ${end}`, 'aria-label': `Ladder, ${what}, ${end ? 'largest' : 'least'}` }).row;
  };
  const save = make('button', { type: 'button', class: 'plain', onclick: async () => {
    const file = editor.do('saveBench');
    if (file) await give(file.name, new TextEncoder().encode(file.text), 'application/json');
  } }, 'Save as a file');
  const load = make('button', { type: 'button', class: 'plain', onclick: async () => {
    const file = await chooseFile('.json,application/json');
    if (file) change('openBench', { bench: await file.text() });
  } }, 'Open a file…');
  return [
    whichMachine(bench, change),
    make('div', { class: 'row' },
      field('Called', machine.name, (name) => set('name', name), { inputmode: 'text', size: 14, 'data-name': 'name' }).row,
      choice('It is', machine.kind, [['laser', 'a laser'], ['knife', 'a knife plotter'], ['hand', 'my hand']], (kind) => set('kind', kind))),
    make('div', { class: 'row' }, length('Bed, width', 'bedWidth', 'any'), length('height', 'bedHeight', 'any'), length('Thickest card', 'thickest', 'unknown')),
    make('div', { class: 'row' }, length('Out of reach: left', 'left'), length('right', 'right'), length('front', 'bottom'), length('back', 'top')),
    choice('Its coordinates begin', machine.origin, [['lower-left', 'front left'], ['lower-right', 'front right'], ['upper-left', 'back left'], ['upper-right', 'back right']], (origin) => set('origin', origin)),
    choice('Marks', machine.marks, [['draw', 'are drawn'], ['none', 'are left out']], (marks) => set('marks', marks)),
    ...(laser || knife ? [
      make('div', { class: 'row' },
        choice('Speeds in', machine.unit, [['mm/s', 'mm/s'], ['mm/min', 'mm/min']], (unit) => { delete ladder.speed; set('unit', unit); }),
        knife ? choice('Blade down with', machine.beam, [['M3', 'M3'], ['M4', 'M4']], (beam) => set('beam', beam))
          : choice('Beam on with', machine.beam, [['M4', 'M4, follows the speed'], ['M3', 'M3, steady']], (beam) => set('beam', beam)),
        whole(knife ? 'S at full pressure' : 'S at full power', 'fullPower')),
      make('div', { class: 'row' }, whole('Moves at (mm/s)', 'travelSpeed'), whole('Speeds up by (mm/s²)', 'acceleration')),
    ] : []),
    ...(knife ? [
      make('div', { class: 'row' }, length('Blade offset', 'bladeOffset', 'its own program'), length('Overcut', 'overcut', 'its own program')),
      make('p', { class: 'quiet' }, 'Machine files, for cards with a pressure and a speed, hold both already; on the drawings they are told for your machine’s own program.'),
    ] : []),
    make('h3', {}, 'Each card on this machine'),
    ...bench.stocks.map((stock) => stockPart(units, machine.kind, stock, machine.unit, change)),
    make('h3', {}, 'Test pieces'),
    make('p', { class: 'quiet' }, 'A gauge that tells how wide a cut is, a ladder of power and speed, and this job’s most delicate places, for every card; a README says how to read them. Did they hold? Say under each card what broke, and it becomes wider.'),
    ...(laser ? [make('div', { class: 'row' }, rung('power', 'Ladder: power (%)', 0), rung('power', 'to', 1), rung('speed', `speed (${machine.unit})`, 0), rung('speed', 'to', 1))] : []),
    make('div', { class: 'row' }, make('button', { type: 'button', class: 'plain', 'data-name': 'tests', onclick: () => void saveTests(page) }, 'Save test pieces')),
    make('h3', {}, 'The bench as a file'),
    make('p', { class: 'quiet' }, 'Your machines stay on this device for all your projects; each project keeps a copy of the one it is cut on. A file takes them to another device, and to the command (--bench).'),
    make('div', { class: 'row' }, save, load),
  ];
}

/** Which of the maker's machines this project is cut on.
 * @param {import('./types').Bench} bench
 * @param {(command: string, args: any) => void} change */
function whichMachine({ machine, machines, own }, change) {
  const which = choice('This project is cut on', machine.name, machines.map((name) => [name, name]), (name) => change('useMachine', { name }));
  which.querySelector('select')?.setAttribute('data-name', 'which');
  const free = () => {
    for (let n = 2; ; n++) if (!machines.includes(`Machine ${n}`)) return `Machine ${n}`;
  };
  return make('div', { class: 'row' }, which,
    make('button', { type: 'button', class: 'plain', 'data-name': 'another', onclick: () => change('addMachine', { name: free(), kind: 'laser' }) }, 'Another machine'),
    ...machines.slice(1).map((name) => make('button', { type: 'button', class: 'plain', 'data-name': `off ${name}`, onclick: () => change('removeMachine', { name }) }, `Take ${name} off my bench`)),
    ...(own === 'other' ? [make('p', { class: 'quiet' }, `This project came with other figures for ${machine.name} than your bench has.`), make('button', {
      type: 'button', class: 'plain', 'data-name': 'mine', onclick: () => change('useMachine', { name: machine.name }) }, 'Take mine')] : []));
}

/** @param {'mm'|'in'} units
 * @param {string} kind
 * @param {import('./types').BenchStock} stock
 * @param {string} unit
 * @param {(command: string, args: any) => any} change */
function stockPart(units, kind, stock, unit, change) {
  const laser = kind === 'laser';
  const power = laser ? 'Power (%)' : 'Pressure (%)';
  const number = (/** @type {string} */ words, /** @type {'power'|'speed'|'passes'|'markPower'|'markSpeed'} */ name) =>
    field(words, stock[name] ? String(stock[name]) : '', (text) => change('setUse', { stock: stock.id, [name]: Math.round(Number(text) || 0) }), { placeholder: '–', size: 4, 'data-name': `${stock.id} ${name}` }).row;
  const kerf = field(`Kerf (${units})`, digits(stock.kerf, units), (text) => change('setUse', { stock: stock.id, kerf: text.trim() ? toMm(text, units) : -1 }), { 'data-name': `${stock.id} kerf` });
  const reading = field('or the gauge reads (mm)', '', (text) => change('kerfReading', { stock: stock.id, mm: Number(text.replace(',', '.')) }), { placeholder: '–', 'data-name': `${stock.id} reading` });
  const counted = stock.sheets.reduce((sum, s) => sum + s.count, 0);
  const shelf = field('Sheets on the shelf', stock.sheets.length ? String(counted) : '', (text) => change('setOnShelf', { stock: stock.id, count: text.trim() ? Math.round(Number(text)) : -1, ...(stock.sheets[0] ? { w_mm: stock.sheets[0].width, h_mm: stock.sheets[0].height } : { w_mm: 0, h_mm: 0 }) }), { placeholder: 'not counted', size: 8, 'data-name': `${stock.id} shelf` });
  const offcut = field(`An offcut more (${units})`, '', (text) => {
    const [w, h] = text.split(/[x×* ]+/).map((t) => toMm(t, units));
    if (w > 0 && h > 0) change('setOffcut', { stock: stock.id, w_mm: w, h_mm: h, do: 'add' });
    else say('Give an offcut’s width and height, as in 120 × 80.');
  }, { placeholder: '120 × 80', size: 9, inputmode: 'text', 'data-name': `${stock.id} offcut` });
  const chip = make('span', { class: 'chip', 'aria-hidden': 'true' });
  chip.style.background = stock.colour;
  const details = make('details', {}, make('summary', {}, chip, stock.name, make('span', { class: 'quiet' },
    laser && !(stock.power && stock.speed) ? 'power and speed not entered' : stock.measured ? 'kerf measured' : 'kerf as is usual')),
  ...(kind !== 'hand' ? [
    make('div', { class: 'row' }, number(power, 'power'), number(`Speed (${unit})`, 'speed'), number('Passes', 'passes')),
    make('div', { class: 'row' }, number(laser ? 'Marks: power (%)' : 'Pen: pressure (%)', 'markPower'), number('speed', 'markSpeed')),
    choice('Several passes', stock.order, [['contour', 'one contour after the other'], ['sheet', 'the whole sheet again']], (order) => change('setUse', { stock: stock.id, order })),
  ] : []),
  ...(laser ? [
    choice('On a laser it is', stock.laser, [['fine', 'fine, its maker says'], ['unknown', 'not known'], ['never', 'never to be cut (PVC, vinyl, unknown foam)']], (is) => change('setLaser', { stock: stock.id, laser: is })),
  ] : []),
  make('div', { class: 'row' }, kerf.row, reading.row),
  make('div', { class: 'row' }, 'On the test piece', ...['strip', 'join', 'tab'].filter((what) => laser || what !== 'tab').map((what) => make('button', {
    type: 'button', class: 'plain', 'data-name': `${stock.id} ${what} broke`, onclick: () => { const words = change('itBroke', { stock: stock.id, what }); if (words) say(words); },
  }, `a ${what} broke`))),
  make('div', { class: 'row' }, shelf.row, offcut.row),
  ...(stock.offcuts.length ? [make('div', { class: 'row' }, 'Offcuts:', ...stock.offcuts.map((o) => make('button', {
    type: 'button', class: 'plain', 'aria-label': `Remove the offcut ${o.width} × ${o.height} mm`, onclick: () => change('setOffcut', { stock: stock.id, w_mm: o.width, h_mm: o.height, do: 'remove' }),
  }, `${digits(o.width, units)} × ${digits(o.height, units)} ✕`)))] : []));
  details.setAttribute('data-stock', stock.id);
  if (opened.has(stock.id)) details.setAttribute('open', '');
  details.addEventListener('toggle', () => { if (details.hasAttribute('open')) opened.add(stock.id); else opened.delete(stock.id); });
  return details;
}

/** The ladder's powers and speeds, least and largest, where others than the usual
 * were asked for.
 * @type {{power?: [number, number] | number[], speed?: [number, number] | number[]}} */
const ladder = {};

/** Stocks whose figures are in view. */
const opened = new Set();

/** @param {Page} page */
async function saveTests(page) {
  say('Making the test pieces…');
  try {
    const { data } = await page.maker.order('tests', { power: ladder.power, speed: ladder.speed });
    download('test-pieces.zip', data, 'application/zip');
    say('test-pieces.zip is saved. Cut them from a scrap of each card.');
  } catch (error) {
    say(/** @type {Error} */ (error).message);
  }
}

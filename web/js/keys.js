// Keys: everything can be done by keyboard, and the page lists how.

import { byId, make } from './dom.js';
import { choice, open } from './dialogs.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {{name: string, commands: {command: string, title: string, keys: {press: string, title: string, args: string}[], args: any[]}[]}} Group */

/** @param {Page} page */
export function setUpKeys(page) {
  /** @type {Group[]} */
  const groups = page.editor.run('keys');
  /** @type {Map<string, {command: string, args: string}>} */
  const presses = new Map();
  for (const group of groups) {
    for (const { command, keys } of group.commands) {
      for (const { press, args } of keys) presses.set(press, { command, args });
    }
  }
  document.addEventListener('keydown', (event) => {
    if (event.defaultPrevented || event.isComposing || document.querySelector('dialog[open]')) return;
    const press = pressOf(event);
    const { view } = page.editor.now;
    if (press && view === 'Assemble' && page.assembly.key(event, press)) {
      event.preventDefault();
      return;
    }
    const found = press && presses.get(press);
    if (!found || !free(event, press, page)) return;
    if (view === 'Sheets' && !onSheets(page, found) || view === 'Assemble' && !anywhere.has(found.command)) return;
    event.preventDefault();
    if (found.command === 'keys') showKeys(page);
    else if (found.command === 'save') void import('./savefile.js').then((m) => m.saveProject(page));
    else if (found.command === 'exportPicture') void import('./savefile.js').then((m) => m.savePicture(page));
    else if (found.command === 'copy' || found.command === 'cut' || found.command === 'paste') page.editor.do(found.command);
    else page.editor.do(found.command, found.args ? JSON.parse(found.args) : undefined);
    if (found.command === 'cursor' || found.command === 'useTool') tellPlace(page);
  });
  byId('bench').addEventListener('focus', () => tellPlace(page));
}

/** What works over sheets and steps as it does over the drawing. */
const anywhere = new Set(['keys', 'save', 'undo', 'redo', 'showView', 'units', 'new', 'showStep', 'nextSprite']);

/** Whether a key may do what it does while the sheets are shown: zoom and moves
 * are theirs then, and nothing may change a drawing that nobody sees.
 * @param {Page} page
 * @param {{command: string, args: string}} found */
function onSheets(page, { command, args }) {
  const given = args ? JSON.parse(args) : {};
  if (command === 'zoom') page.sheetBench?.zoom(given.factor);
  else if (command === 'fit') page.sheetBench?.zoom(0);
  else if (command === 'pan') page.sheetBench?.pan(given.dx, given.dy);
  else return anywhere.has(command);
  return false;
}

/** A key press as the list of keys writes it.
 * @param {KeyboardEvent} event */
function pressOf(event) {
  const { key } = event;
  if (['Control', 'Shift', 'Alt', 'Meta', 'Dead', 'Unidentified'].includes(key)) return '';
  const ctrl = event.ctrlKey || event.metaKey;
  const name = key === ' ' ? 'Space' : key.length === 1 ? key.toUpperCase() : key;
  // A sign such as ? or { has its Shift in it.
  const shift = event.shiftKey && !(key.length === 1 && key.toUpperCase() === key.toLowerCase());
  return [ctrl && 'Ctrl', event.altKey && 'Alt', shift && 'Shift', name].filter(Boolean).join('+')
    .replace('Ctrl+Shift+Alt', 'Ctrl+Alt+Shift');
}

/** Whether a key is the page's to take: not while something is typed, and keys
 * that controls need only where the drawing has the keyboard.
 * @param {KeyboardEvent} event
 * @param {string} press
 * @param {Page} page */
function free(event, press, page) {
  const target = event.target instanceof HTMLElement ? event.target : document.body;
  if (target.closest('input:not([type="range"], [type="checkbox"]), textarea, select, [contenteditable]')) return false;
  const onControl = target !== document.body && target.id !== 'bench';
  if (onControl && /^(Shift\+)?(Space|Enter|Escape|Arrow\w+|Home|End|PageUp|PageDown)$/.test(press)) return false;
  if (press.length === 1 || /^Shift\+.$/.test(press)) {
    // As it is now: the view is told a frame later.
    return press === '?' || JSON.parse(page.editor.core.panels()).hand.letterKeys === 'on';
  }
  return true;
}

/** Says which cell the keyboard is at.
 * @param {Page} page */
function tellPlace(page) {
  setTimeout(() => {
    const state = JSON.parse(page.editor.core.state());
    const at = state.cursor ?? { x: 0, y: 0 };
    const key = state.sprite.rows[at.y]?.[at.x] ?? '.';
    const entry = state.palette.find((/** @type {any} */ e) => e.key === key);
    byId('bench-place').textContent = `column ${at.x + 1}, row ${at.y + 1}: ${entry ? entry.name : 'empty'}`;
  }, 0);
}

/** What a pointer does step by step, or a script: a maker has Space and the arrows. */
const byScript = new Set(['begin', 'extend', 'end', 'draw', 'rub', 'line', 'box', 'oval', 'fill', 'pick', 'paintCells', 'mark', 'shelf', 'showFrame']);

/** @param {Page} page */
export function showKeys(page) {
  /** @type {Group[]} */
  const groups = page.editor.run('keys');
  const mac = /Mac|iPhone|iPad/.test(navigator.platform);
  const held = groups.map((group) => {
    const items = group.commands.flatMap((c) => c.keys).flatMap(({ press, title }) => [
      make('dt', {}, make('kbd', {}, mac ? press.replace('Ctrl', '⌘') : press)), make('dd', {}, title)]);
    const bare = group.commands.filter((c) => !c.keys.length && !byScript.has(c.command)).map((c) => c.title.toLowerCase());
    return [make('h3', {}, group.name), ...(items.length ? [make('dl', {}, ...items)] : []),
      ...(bare.length ? [make('p', { class: 'quiet' }, `With Tab and Enter: ${bare.join(', ')}.`)] : [])];
  });
  open('Keys', [
    make('p', { class: 'quiet' }, 'Hold the space bar to move the drawing, Alt to take up a colour. With the right button, or the pen’s other end, you rub out.'),
    make('p', { class: 'quiet' }, 'On a card of the Stack, Alt with the up or down arrow lays it over or under its neighbour; the menu key opens the rest.'),
    make('p', { class: 'quiet' }, 'In Assemble, the right arrow, Page Down, the space bar or Enter go on a step, the left arrow, Page Up or Backspace go back: so does a foot switch that sends one of them. The up and down arrows go from part to part; O, S and L say that it is out, stuck or lost.'),
    choice('Keys without Ctrl', page.editor.view.hand.letterKeys, [['on', 'on'], ['off', 'off']], (use) => page.editor.do('letterKeys', { use })),
    ...held.flat()]);
}

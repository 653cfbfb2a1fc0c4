// What a step of the assembly says, in the guide's words.

import { count, length } from './lengths.js';

/** @typedef {import('./assembly.js').Build} Build */

/** Names as a sentence lists them.
 * @param {string[]} names */
export const joined = (names) => (names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`);

/** What is to be done, a sentence each.
 * @param {Build} build
 * @param {'mm' | 'in'} units
 * @returns {string[]} */
export function stepWords(build, units) {
  const { sprite, now, states } = build;
  if (!now) return [];
  const out = [];
  const number = (/** @type {number} */ i) => sprite.parts[i].number;
  if (now.lift === 'foam' && now.pads) {
    out.push(`First stick ${count(now.pads, 'pad')} of ${length(now.thick, units)} foam beneath, where the dashed boxes are: ${length(now.back, units)} or more behind every edge.`);
  }
  if (now.lift === 'spacer' && now.pads) {
    out.push(`First tape the cut spacers beneath, ${length(now.thick, units)} thick, where the dashed lines are.`);
    for (const i of now.parts) if (sprite.parts[i].lifts.length) out.push(`${joined(sprite.parts[i].lifts)} under ${number(i)}.`);
  }
  for (const below of new Set(now.parts.map((i) => sprite.parts[i].on))) {
    const numbers = joined(now.parts.filter((i) => sprite.parts[i].on === below).map(number));
    out.push(below < 0 ? `${numbers} on the board.` : `${numbers} on ${number(below)}.`);
    if (below >= 0 && states[below] === 'lost') out.push(`${number(below)} is lost: leave what lies on it until it is cut again.`);
  }
  if (now.lift === 'tape') out.push('Tape or glue flat.');
  if (sprite.stocks[now.stock].face === 'down') out.push('Cut good face down: turn the parts over; the numbers are on their backs.');
  for (const { part, carries } of now.apart) {
    out.push(`${number(part)} can be made up apart with all that lies on it (${count(carries, 'part')}), and then set down whole.`);
  }
  return out;
}

/** What a sheet is called, and how it lay on the machine.
 * @param {import('./types').AssemblySheet} sheet */
export const sheetWords = (sheet) =>
  `${sheet.name}${sheet.of > 1 ? `, sheet ${sheet.number} of ${sheet.of}` : ''}${sheet.offcut ? ', an offcut' : ''}, good face ${sheet.face === 'down' ? 'DOWN' : 'up'}`;

// What a step of the assembly says, in the guide's words.

import { words } from './assemblewords.js';
import { length } from './lengths.js';

/** @typedef {import('./assembly.js').Build} Build */

/** What is to be done, a sentence each.
 * @param {Build} build
 * @param {'mm' | 'in'} units
 * @param {import('./types').AssemblySheet[]} sheets
 * @returns {string[]} */
export function stepWords(build, units, sheets) {
  const { sprite, now, states } = build;
  if (!now) return [];
  const out = [];
  const number = (/** @type {number} */ i) => sprite.parts[i].number;
  if (now.lift === 'foam' && now.pads) {
    out.push(words.padding(now.pads, length(now.thick, units), length(now.back, units)));
  }
  if (now.lift === 'spacer' && now.pads) {
    out.push(words.spacing(length(now.thick, units)));
    for (const i of now.parts) if (sprite.parts[i].lifts.length) out.push(words.under(sprite.parts[i].lifts, number(i)));
  }
  for (const below of new Set(now.parts.map((i) => sprite.parts[i].on))) {
    const numbers = now.parts.filter((i) => sprite.parts[i].on === below).map(number);
    out.push(below < 0 ? words.ontoBoard(numbers) : words.onto(numbers, number(below)));
    if (below >= 0 && states[below] === 'lost') out.push(words.belowIsLost(number(below)));
  }
  for (const i of now.parts) {
    const { pieces } = sprite.parts[i];
    if (pieces.length) out.push(words.inPieces(number(i), pieces));
  }
  if (now.lift === 'tape') out.push(words.taped);
  if (sprite.stocks[now.stock].face === 'down') out.push(words.turned);
  if (now.pins) out.push(words.pins(length(now.pins.thick, units), now.pins.through.map((list) => list.map(number))));
  for (const i of now.ends) out.push(words.pinEnd(number(i)));
  const framed = sheets[now.frame?.sheets[build.copy - 1] ?? -1];
  if (framed) out.push(words.whole(now.parts.map(number), framed));
  if (now.jig) out.push(words.jig(now.level, now.jig.name, length(now.jig.pack, units)));
  for (const { part, carries } of now.apart) out.push(words.apart(number(part), carries));
  return out;
}

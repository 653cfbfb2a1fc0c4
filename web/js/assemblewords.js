// All words of the Assemble view but those that stand in index.html. A
// translation is another one of these.

/** The form that goes with a number.
 * @param {number} n
 * @param {string} one
 * @param {string} many */
const bent = (n, one, many) => (n === 1 ? one : many);

/** Names as a sentence lists them.
 * @param {string[]} names */
const joined = (names) => (names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`);

/** @param {string[]} names */
const listed = (names) => names.join(', ');

/** @param {number} n */
const parts = (n) => `${n} ${bent(n, 'part', 'parts')}`;

/** @param {number} n */
const pads = (n) => `${n} ${bent(n, 'pad', 'pads')}`;

/** @typedef {string | number} Put what is put into a text */

export const words = {
  // How far the view itself is.
  lookingOver: 'looking over the steps…',
  workingOut: 'working out the steps…',
  nothing: 'There is nothing to put together yet: draw something first.',
  laying: 'Laying the sheets…',

  // A step.
  /** @type {(step: Put, of: Put) => string} */
  step: (step, of) => `Step ${step} of ${of}`,
  /** @type {(sprite: string) => string} */
  together: (sprite) => `${sprite} is together`,
  /** @type {(n: number) => string} */
  open: (n) => `${parts(n)} ${bent(n, 'is', 'are')} not ticked off as stuck.`,
  /** @type {(lost: string[]) => string} */
  butFor: (lost) => `But for ${joined(lost)}, which ${bent(lost.length, 'is', 'are')} cut again.`,
  weighDown: 'Weigh it down overnight if the card curls.',
  /** @type {(stock: string, height: Put, n: number) => string} */
  facts: (stock, height, n) => `${stock}, height ${height}, ${parts(n)}`,
  /** @type {(n: number, thick: string, back: string) => string} */
  padding: (n, thick, back) => `First stick ${pads(n)} of ${thick} foam beneath, where the dashed boxes are: ${back} or more behind every edge.`,
  /** @type {(thick: string) => string} */
  spacing: (thick) => `First tape the cut spacers beneath, ${thick} thick, where the dashed lines are.`,
  /** @type {(spacers: string[], part: string) => string} */
  under: (spacers, part) => `${joined(spacers)} under ${part}.`,
  /** @type {(parts: string[], below: string) => string} */
  onto: (parts, below) => `${joined(parts)} on ${below}.`,
  /** @type {(parts: string[]) => string} */
  ontoBoard: (parts) => `${joined(parts)} on the board.`,
  /** @type {(part: string) => string} */
  belowIsLost: (part) => `${part} is lost: leave what lies on it until it is cut again.`,
  /** @type {(part: string, pieces: string[]) => string} */
  inPieces: (part, pieces) => `${part} comes in ${pieces.length} pieces, ${joined(pieces)}: lay them edge to edge, as the dashed lines show.`,
  taped: 'Tape or glue flat.',
  turned: 'Cut good face down: turn the parts over; the numbers are on their backs.',
  /** @type {(part: string, carries: number) => string} */
  apart: (part, carries) => `${part} can be made up apart with all that lies on it (${parts(carries)}), and then set down whole.`,
  /** @type {(thick: string, through: string[][]) => string} */
  pins: (thick, [one, other]) => `Pins or wires of ${thick} keep the holes in line: ${joined(one) === joined(other) ? `both through ${joined(one)}` : `through ${joined(one)}, and through ${joined(other)}`}. Stand them upright in the board or in foam, thread each part on, and cut them off flush before what hides them goes down; mind the ends.`,
  /** @type {(part: string) => string} */
  pinEnd: (part) => `${part} hides the end of a pin: see that it stands no higher than what lies there.`,
  /** @type {(parts: string[], sheet: {name: string, number: number}) => string} */
  whole: (parts, { name, number }) => `Left whole: ${joined(parts)} stay in their frame from ${name}, sheet ${number}. Lift the frame out as it is, press a tacky sheet (transfer tape, or tape with little tack) onto its face, put adhesive on the backs, lay all down at once where the marks are, peel the sheet off, then cut the tabs through and take the frame away; a blade cuts away from you.`,
  /** @type {(height: number, stock: string, high: string) => string} */
  jig: (height, stock, high) => `There is a jig for height ${height}, of ${stock}: set the rim about what lies there, the plate flush on it, its lower face ${high} over the board (packing at the rim), and lay each part through its window.`,

  // On and back.
  /** @type {(parts: string[], left: number) => string} */
  stuckNow: (parts, left) => `${joined(parts)}${left > parts.length ? ' …' : ''} ${bent(left, 'is', 'are')} stuck`,
  done: 'Done',
  next: 'Next step',
  /** @type {(sprite: string, copy: number) => string} */
  onWith: (sprite, copy) => `On with ${sprite}${copy ? `, copy ${copy}` : ''}`,
  all: 'All is together',

  // What is put together, and how far it is.
  putTogether: 'Put together',
  /** @type {(c: {sprite: string, copy: number, of: number, parts: number, stuck: number}) => string} */
  copy: (c) => `${c.sprite}${c.of > 1 ? `, ${c.copy} of ${c.of}` : ''}: ${c.stuck === c.parts ? 'together' : `${c.stuck} of ${c.parts}`}`,
  /** @type {(n: number) => string} behind how many */
  ofStuck: (n) => ` of ${parts(n)} stuck`,
  /** @type {(time: string) => string} */
  left: (time) => `, about ${time} left`,
  /** @type {(time: string) => string} */
  everything: (time) => `; ${time} for everything`,
  howFar: 'How far it is',

  // A part.
  /** Where a part is. */
  where: { '': 'in its sheet', out: 'out of its sheet', stuck: 'stuck', lost: 'lost' },
  /** On its button. */
  is: { '': '', out: 'out', stuck: 'stuck', lost: 'lost' },
  /** To say where it is. */
  out: 'Out',
  stuck: 'Stuck',
  lost: 'Lost',
  /** @type {(part: string, where: string) => string} */
  chip: (part, where) => `${part}, ${where}`,
  /** @type {(stock: string, size: string, height: Put, below: string) => string} below is '' for the board */
  card: (stock, size, height, below) => `${stock}, ${size}, height ${height}, ${below ? `rests on ${below}` : 'rests on the board'}.`,
  /** @type {(part: string) => string} */
  whereIs: (part) => `Where ${part} is`,
  cutAgain: 'Cut it again',
  /** @type {(parts: string[]) => string} */
  goesAgain: (parts) => `${listed(parts)} goes to Cut again: the Sheets view has a small sheet for it.`,
  /** @type {(part: string) => string} */
  onSheet: (part) => `${part} on its sheet`,
  /** @type {(n: number, sheets: string[]) => string} */
  piecesOn: (n, sheets) => `${n} pieces: ${sheets.join('; ')}`,
  onNone: 'on no sheet',
  noSheet: 'It lies on no sheet: it is too large for one.',
  /** @type {(sheet: import('./types').AssemblySheet) => string} */
  sheet: (sheet) => `${sheet.name}${sheet.of > 1 ? `, sheet ${sheet.number} of ${sheet.of}` : ''}${sheet.offcut ? ', an offcut' : ''}, good face ${sheet.face === 'down' ? 'DOWN' : 'up'}`,
  /** @type {(part: string, height: Put, of: Put) => string} */
  inStack: (part, height, of) => `${part} in the stack, at height ${height} of ${of}`,
  stack: 'The stack, pulled apart',

  // What concerns all of it.
  begin: 'Begin again?',
  beginAgain: 'Begin again',
  /** @type {(sprite: string, copy: number) => string} copy is 0 where there is one only */
  forgotten: (sprite, copy) => `What is ticked off of ${sprite}${copy ? `, copy ${copy},` : ''} is forgotten.`,
  leave: 'Leave it',
  beginAgainAsks: 'Begin again…',
  /** @type {(parts: string[]) => string} */
  toBeCut: (parts) => `To be cut again: ${listed(parts)}.`,
  seeSheet: 'See their sheet',
  allOut: 'All are out of their sheets',
  goToStep: 'Go to step',
  /** @type {(step: Put, of: Put) => string} */
  stepOf: (step, of) => `${step} of ${of}`,
  end: 'the end',
  timeFrom: 'Time left, from',
  typical: 'typical times (45 s a part)',
  /** @type {(seconds: number) => string} */
  mine: (seconds) => `my own pace (${seconds} s a part)`,
  mineUnknown: 'my own pace (not known yet)',
  awake: 'Keep the screen on',
  awakeRefused: 'Keep the screen on (this browser won’t)',
};

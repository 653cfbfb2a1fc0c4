// What can be done to the drawing as a whole, or to what is marked in it.

import { make } from './dom.js';
import { choice, open } from './dialogs.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page */
export function showChange(page) {
  const { editor } = page;
  const { palette, selection, copied, hand, sprite } = editor.view;
  /** @param {string} words
   * @param {string} command
   * @param {unknown} [args]
   * @param {{stay?: 'open', off?: 'off' | ''}} [more] */
  const act = (words, command, args, { stay, off } = {}) => make('button', {
    type: 'button', class: 'plain', disabled: off === 'off', onclick: () => {
      editor.do(command, args);
      if (!stay) dialog.close();
    },
  }, words);
  const unlessMarked = selection ? '' : 'off';
  /** @type {[string, string][]} */
  const colours = palette.map((e) => [e.key, e.name]);
  let from = hand.key;
  const dialog = open('Change the drawing', [
    make('p', { class: 'quiet' }, selection
      ? 'For what is marked. Drag it to move it.'
      : 'For the whole drawing. To change some of it, mark that with the Move tool first.'),
    make('div', { class: 'row' },
      act('Copy', 'copy'), act('Cut out', 'cut'), act('Paste', 'paste', undefined, { off: copied ? '' : 'off' }),
      act('Mark everything', 'markAll'), act('Rub out what is marked', 'rubMarked', undefined, { off: unlessMarked })),
    make('div', { class: 'row' },
      act('Turn left', 'turn', { way: 'left' }, { stay: 'open' }), act('Turn right', 'turn', { way: 'right' }, { stay: 'open' }),
      act('Flip sideways', 'flip', { over: 'sideways' }, { stay: 'open' }), act('Flip upside down', 'flip', { over: 'upside-down' }, { stay: 'open' })),
    make('h3', {}, 'All of it'),
    make('div', { class: 'row' }, 'Shift round',
      act('left', 'shift', { dx: -1, dy: 0 }, { stay: 'open' }), act('right', 'shift', { dx: 1, dy: 0 }, { stay: 'open' }),
      act('up', 'shift', { dx: 0, dy: -1 }, { stay: 'open' }), act('down', 'shift', { dx: 0, dy: 1 }, { stay: 'open' })),
    make('div', { class: 'row' },
      act('Cut the grid to what is marked', 'crop', undefined, { off: unlessMarked }), act('Cut off empty edges', 'trim'), act('Rub out everything', 'clear')),
    make('div', { class: 'row' },
      choice('Replace', from, colours, (v) => { from = v; }),
      choice('with', '', [['', 'choose…'], ...colours], (to) => { if (to && to !== from) editor.do('replaceColour', { from, to }); })),
    choice('Draw both sides', hand.bothSides, [['off', 'one side only'], ['left-right', 'left and right'], ['top-bottom', 'top and bottom'], ['all-four', 'all four']],
      (sides) => editor.do('bothSides', { sides })),
    make('h3', {}, 'Frames'),
    make('p', { class: 'quiet' }, `Frame ${sprite.frame} of ${sprite.frames}. The first one is cut.`),
    make('div', { class: 'row' },
      act('The one before', 'nextFrame', { by: -1 }, { off: sprite.frames > 1 ? '' : 'off' }), act('The next', 'nextFrame', { by: 1 }, { off: sprite.frames > 1 ? '' : 'off' }),
      act('Add an empty one', 'addFrame'), act('Copy this one', 'copyFrame'), act('Remove this one', 'removeFrame', undefined, { off: sprite.frames > 1 ? '' : 'off' })),
  ]);
}

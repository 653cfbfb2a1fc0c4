// The drawing matched to my shelf at once: which stock each colour is cut from,
// before and after side by side, and only then a step.

import { make } from './dom.js';
import { choice, field, open } from './dialogs.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./types').Match} Match */

/** What a difference looks like; ΔE 1 is about the least that is seen side by
 * side (common practice, no source).
 * @param {number} e CIEDE2000 */
const looks = (e) => (e < 1 ? 'no difference seen' : e < 3 ? 'hardly different' : e < 8 ? 'a little different' : 'clearly different');

/** @param {Page} page
 * @param {() => void} back shows the shelf */
export function showMatch(page, back) {
  const { editor } = page;
  const rules = { stocks: 0, sharing: 'share', touching: 'differ' };
  /** @type {Match | null} */
  let match = null;
  let shown = editor.view.sprite.index;
  let last = 0;
  const status = make('p', { class: 'grid-status', role: 'status' });
  const before = /** @type {HTMLCanvasElement} */ (make('canvas', { class: 'grid-result', role: 'img', 'aria-label': 'As it is drawn' }));
  const after = /** @type {HTMLCanvasElement} */ (make('canvas', { class: 'grid-result', role: 'img', 'aria-label': 'As it would be cut from my shelf' }));
  const list = make('div', { class: 'match-list' });
  const which = make('div', {});
  const accept = () => {
    if (!match) return;
    const { colours } = match;
    if (editor.do('useShelf', { keys: colours.map((c) => c.key).join(''), stocks: colours.map((c) => c.to) }) !== undefined) dialog.close();
  };
  const use = /** @type {HTMLButtonElement} */ (make('button', { type: 'button', class: 'next', disabled: true, onclick: accept }, 'Cut it from these'));
  const show = () => {
    use.disabled = !match;
    list.replaceChildren(...(match ? match.colours.map(row) : []));
    which.replaceChildren(...(match && match.sprites.length > 1
      ? [choice('Sprite', String(shown), match.sprites.map((s, i) => /** @type {[string, string]} */ ([String(i), s.name])), (i) => { shown = Number(i); show(); })] : []));
    const sprite = match?.sprites[shown] ?? match?.sprites[0];
    const drawn = new Map(match?.colours.map((c) => [c.key, c.drawn]));
    const cut = new Map(match?.colours.map((c) => [c.key, c.toColour]));
    paint(before, sprite, drawn);
    paint(after, sprite, cut);
  };
  const ask = async () => {
    const asked = ++last;
    use.disabled = true;
    status.textContent = 'Looking at the shelf…';
    /** @type {string} */
    let words;
    try {
      const { data } = await page.maker.order('match', { shelf: editor.core.shelf(), rules: JSON.stringify(rules) });
      if (asked !== last) return;
      match = /** @type {Match} */ (JSON.parse(data));
      words = `${match.stocks} ${match.stocks === 1 ? 'stock' : 'stocks'} for ${match.colours.length} ${match.colours.length === 1 ? 'colour' : 'colours'}; on the whole ${looks(match.mean)} (ΔE ${match.mean.toFixed(1)}).`
        + (match.proven ? '' : ' There may be a slightly better choice: there were too many to try them all.');
    } catch (error) {
      if (asked !== last) return;
      match = null;
      words = /** @type {Error} */ (error).message;
      words = `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
    }
    status.textContent = words;
    show();
  };
  const most = field('At most', '', (text) => { rules.stocks = Math.max(0, Math.round(Number(text) || 0)); void ask(); }, { placeholder: 'any', size: 4, 'aria-label': 'At most so many stocks' });
  const check = (/** @type {string} */ words, /** @type {boolean} */ on, /** @type {(on: boolean) => void} */ changed) => {
    const box = /** @type {HTMLInputElement} */ (make('input', { type: 'checkbox', checked: on }));
    box.addEventListener('change', () => { changed(box.checked); void ask(); });
    return make('label', {}, box, words);
  };
  const dialog = open('Match the drawing to my shelf', [
    make('div', { class: 'row' }, most.row, 'stocks',
      check('Colours may share a stock', true, (on) => { rules.sharing = on ? 'share' : 'one each'; }),
      check('Colours that touch may become the same', false, (on) => { rules.touching = on ? 'may merge' : 'differ'; })),
    status,
    which,
    make('div', { class: 'grid-pair' },
      make('figure', { class: 'match-figure' }, make('figcaption', {}, 'As drawn'), before),
      make('figure', { class: 'match-figure' }, make('figcaption', {}, 'From my shelf'), after)),
    list,
    make('div', { class: 'row' }, use,
      make('button', { type: 'button', class: 'plain', onclick: () => { dialog.close(); back(); } }, 'Back to the shelf')),
    make('p', { class: 'quiet' }, 'The drawing’s own colours stay as they are; undo takes the cards back.'),
  ]);
  dialog.classList.add('wide');
  void ask();
}

/** @param {Match['colours'][number]} c */
function row(c) {
  const chip = (/** @type {string} */ colour) => {
    const mark = make('span', { class: 'grid-chip' });
    mark.style.background = colour;
    return mark;
  };
  return make('div', { class: 'match-row' }, chip(c.drawn), make('span', {}, c.name), make('span', { 'aria-label': 'is cut from' }, '→'),
    chip(c.toColour), make('b', {}, c.toName), make('span', { class: 'quiet' }, `${looks(c.difference)} (ΔE ${c.difference.toFixed(1)})`));
}

/** @param {HTMLCanvasElement} canvas
 * @param {Match['sprites'][number] | undefined} sprite
 * @param {Map<string, string>} colours */
function paint(canvas, sprite, colours) {
  canvas.width = sprite?.width ?? 1;
  canvas.height = sprite?.height ?? 1;
  const c = canvas.getContext('2d');
  if (!c || !sprite) return;
  sprite.rows.forEach((cells, y) => [...cells].forEach((key, x) => {
    const colour = colours.get(key);
    if (!colour) return;
    c.fillStyle = colour;
    c.fillRect(x, y, 1, 1);
  }));
}

// Beside the step: what is put together and how far it is, the parts of the
// step, the one that is lit, where it is found and where it goes.

import { words } from './assemblewords.js';
import { byId, make, refill, write } from './dom.js';
import { choice, open } from './dialogs.js';
import { size, span } from './lengths.js';
import { showWhere } from './partwhere.js';
import { stepWords } from './stepwords.js';

/** @typedef {import('./bridge.js').Page} Page
 *  @typedef {import('./assembly.js').Build} Build
 *  @typedef {import('./assembly.js').Is} Is */

/** @param {Page} page
 * @param {import('./awake.js').Awake} awake
 * @returns {() => void} brings it in step */
export function setUpAssembleSide(page, awake) {
  const show = () => {
    const { assembly } = page;
    const { build } = assembly;
    write(byId('assemble-note'), assembly.problem || (build ? (assembly.working ? words.lookingOver : '') : assembly.working ? words.workingOut : words.nothing));
    byId('assemble').toggleAttribute('data-empty', !build);
    showHead(page, build);
    showFoot(page, build);
    showChoice(page);
    refill(byId('step-parts'), build ? JSON.stringify([build.sprite.name, build.copy, build.step, build.states, build.lit, assembly.model?.revision]) : '', () => (build ? chips(page, build) : []));
    refill(byId('step-words'), build ? JSON.stringify([build.sprite.name, build.copy, build.step, build.states, page.editor.view.hand.units, assembly.model?.revision, assembly.model?.laid]) : '',
      () => (build ? stepWords(build, page.editor.view.hand.units, assembly.model?.sheets ?? []).map((text) => make('li', {}, text)) : []));
    refill(byId('part-card'), build ? JSON.stringify([build.sprite.name, build.copy, build.lit, build.states[build.lit], page.editor.view.choice.parts, page.editor.view.hand.units, assembly.model?.revision]) : '',
      () => (build ? card(page, build) : []));
    showWhere(assembly);
    showActs(page, build, awake);
  };
  awake.changed = show;
  return show;
}

/** @param {Page} page
 * @param {Build | null} build */
function showHead(page, build) {
  const title = !build ? '' : build.now ? words.step(build.step + 1, build.sprite.steps.length) : words.together(build.sprite.name);
  write(byId('step-title'), title);
  const stock = build?.now ? build.sprite.stocks[build.now.stock] : null;
  refill(byId('step-facts'), build ? JSON.stringify([build.sprite.name, build.step, stock, build.copy, build.states]) : '', () => {
    if (!build) return [];
    if (!build.now || !stock) {
      const lost = build.sprite.parts.filter((_, i) => build.states[i] === 'lost').map((p) => p.number);
      const open = build.sprite.parts.filter((_, i) => build.states[i] !== 'stuck' && build.states[i] !== 'lost');
      if (open.length) return [words.open(open.length)];
      return [lost.length ? words.butFor(lost) : words.weighDown];
    }
    const chip = make('span', { class: 'chip', 'aria-hidden': 'true' });
    chip.style.background = stock.colour;
    return [chip, words.facts(stock.name, build.now.level, build.now.parts.length)];
  });
}

/** @param {Page} page
 * @param {Build | null} build */
function showFoot(page, build) {
  const back = /** @type {HTMLButtonElement} */ (byId('step-back'));
  const next = /** @type {HTMLButtonElement} */ (byId('step-next'));
  back.disabled = !build || build.step === 0;
  const following = build && !build.now ? page.assembly.following : null;
  next.disabled = !build || !build.now && !following;
  const left = build?.now?.parts.filter((i) => build.states[i] !== 'stuck' && build.states[i] !== 'lost') ?? [];
  const small = !build?.now ? '' : left.length ? words.stuckNow(left.map((i) => build.sprite.parts[i].number).slice(0, 3), left.length) : '';
  const large = !build || build.now ? (build && build.step + 1 === build.sprite.steps.length ? words.done : words.next) : following ? words.onWith(following.sprite, following.of > 1 ? following.copy : 0) : words.all;
  refill(next, large + small, () => [make('span', {}, large), ...(small ? [make('small', {}, small)] : [])]);
}

/** What can be put together, and how far it is.
 * @param {Page} page */
function showChoice(page) {
  const { editor } = page;
  const told = editor.view.assembly;
  const copies = told?.copies ?? [];
  const at = copies.findIndex((c) => c.sprite === told?.sprite && c.copy === told.copy);
  refill(byId('build-choice'), JSON.stringify([copies, at]), () => (copies.length && at >= 0 ? [named('build', choice(words.putTogether, String(at), copies.map((c, i) => [
    String(i), words.copy(c)]),
  (n) => editor.do('putTogether', { sprite: copies[Number(n)].sprite, copy: copies[Number(n)].copy })))] : []));
  const c = copies[at];
  const print = c && told ? JSON.stringify([c, told.left, told.all, copies.length]) : '';
  refill(byId('build-count'), print, () => (c && told ? [
    make('b', {}, String(c.stuck)), words.ofStuck(c.parts),
    make('span', { class: 'quiet' }, (told.left ? words.left(span(told.left)) : '') + (copies.length > 1 && told.all > told.left ? words.everything(span(told.all)) : '')),
    make('progress', { max: c.parts, value: c.stuck, 'aria-label': words.howFar }),
  ] : []));
}

/** The parts of the step, a button each.
 * @param {Page} page
 * @param {Build} build
 * @returns {HTMLElement[]} */
function chips(page, build) {
  return (build.now?.parts ?? []).map((i) => {
    const part = build.sprite.parts[i];
    const chip = make('span', { class: 'chip', 'aria-hidden': 'true' });
    chip.style.background = build.sprite.stocks[part.stock].colour;
    return make('li', {}, make('button', {
      type: 'button', class: `plain is-${build.states[i] || 'in'}`, 'data-name': `part ${part.number}`, 'aria-pressed': String(i === build.lit),
      'aria-label': words.chip(part.number, words.where[build.states[i]]), onclick: () => page.assembly.point(i),
    }, chip, part.number, ...(build.states[i] ? [make('small', {}, words.is[build.states[i]])] : [])));
  });
}

/** The part that is lit.
 * @param {Page} page
 * @param {Build} build
 * @returns {Node[]} */
function card(page, build) {
  const part = build.sprite.parts[build.lit];
  if (!part) return [];
  const is = build.states[build.lit];
  const { units } = page.editor.view.hand;
  const button = (/** @type {Is} */ to, /** @type {string} */ text) => make('button', {
    type: 'button', class: 'plain', 'aria-pressed': String(is === to), 'data-name': to, onclick: () => page.assembly.mark([build.lit], is === to ? '' : to),
  }, text);
  const again = page.editor.view.choice.parts.includes(part.number);
  return [
    make('p', {}, make('b', {}, part.number), ` ${words.where[is]}`),
    make('p', { class: 'quiet' }, words.card(build.sprite.stocks[part.stock].name, size(part.size[0], part.size[1], units), part.level, part.on < 0 ? '' : build.sprite.parts[part.on].number)),
    make('div', { class: 'row', role: 'group', 'aria-label': words.whereIs(part.number) }, button('out', words.out), button('stuck', words.stuck), button('lost', words.lost)),
    ...(is === 'lost' && !again ? [make('div', { class: 'row' }, make('button', {
      type: 'button', class: 'plain', 'data-name': 'again', onclick: () => page.editor.do('cutAgain', { parts: [...page.editor.view.choice.parts, part.number].join(' ') }),
    }, words.cutAgain))] : []),
  ];
}

/** A choice that keeps the keyboard when it is made anew.
 * @param {string} name
 * @param {HTMLElement} label */
function named(name, label) {
  label.querySelector('select')?.setAttribute('data-name', name);
  return label;
}

/** Forgets how far a copy is, once more asked: it can't be undone.
 * @param {Page} page
 * @param {Build} build */
function askAnew(page, build) {
  const dialog = open(words.begin, [
    make('p', {}, words.forgotten(build.sprite.name, build.sprite.copies > 1 ? build.copy : 0)),
    make('div', { class: 'row' },
      make('button', { type: 'button', class: 'plain', onclick: () => dialog.close() }, words.leave),
      make('button', { type: 'button', class: 'plain', 'data-name': 'forget', onclick: () => {
        dialog.close();
        page.editor.do('buildAnew', { sprite: build.sprite.name, copy: build.copy });
        page.editor.do('pointAt', {});
      } }, words.beginAgain)),
  ]);
}

/** What concerns all of it.
 * @param {Page} page
 * @param {Build | null} build
 * @param {import('./awake.js').Awake} awake */
function showActs(page, build, awake) {
  const { editor } = page;
  const { hand, assembly: told, choice: { parts: again } } = editor.view;
  const inSheet = build?.states.filter((s) => s === '').length ?? 0;
  const begun = build ? build.step > 0 || build.states.some((s) => s) : false;
  const print = JSON.stringify([build?.sprite.name, build?.copy, inSheet > 0, begun, hand.pace, hand.awake, awake.is, told?.learnt, told?.mine, told?.step, again]);
  refill(byId('assemble-acts'), print, () => {
    if (!build) return [];
    const lit = /** @type {HTMLInputElement} */ (make('input', { type: 'checkbox', checked: hand.awake === 'on', 'data-name': 'awake' }));
    lit.addEventListener('change', () => editor.do('keepAwake', { awake: lit.checked ? 'on' : 'off' }));
    const mine = told?.learnt ? words.mine(told.mine) : words.mineUnknown;
    return [
      ...(again.length ? [make('p', {}, words.toBeCut(again)), make('div', { class: 'row' }, make('button', {
        type: 'button', class: 'plain', 'data-name': 'to-sheets', onclick: () => editor.do('showView', { view: 'Sheets' }) }, words.seeSheet))] : []),
      make('div', { class: 'row' },
        ...(inSheet ? [make('button', { type: 'button', class: 'plain', 'data-name': 'all-out', onclick: () => page.assembly.mark([], 'out') }, words.allOut)] : []),
        ...(begun ? [make('button', { type: 'button', class: 'plain', 'data-name': 'anew', onclick: () => askAnew(page, build) }, words.beginAgainAsks)] : [])),
      named('step', choice(words.goToStep, String(told?.step ?? 1), [...build.sprite.steps.map((_, i) => /** @type {[string, string]} */ ([String(i + 1), words.stepOf(i + 1, build.sprite.steps.length)])), [String(build.sprite.steps.length + 1), words.end]],
        (n) => editor.do('goToStep', { step: Number(n) }))),
      named('pace', choice(words.timeFrom, hand.pace, [['typical', words.typical], ['mine', mine]], (pace) => editor.do('setPace', { pace }))),
      make('label', {}, lit, awake.is === 'refused' && hand.awake === 'on' ? words.awakeRefused : words.awake),
    ];
  });
}

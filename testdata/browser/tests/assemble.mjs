// The Assemble view: from step to step by tap and by key, parts that are out,
// stuck or lost, how far one is after a reload, and a glass that stays lit.
import assert from 'node:assert/strict';
import { draw, onAFirstVisit, onThePage } from './suite.mjs';

const crab = ['.AAAAAAAA.', 'ACCCCCCCCA', 'ACDCDDCDCA', 'ACCCCCCCCA', 'ACDCBBCDCA', '.AAAAAAAA.'];

/** A crab in two copies, each patch a part of its own on a backer, in the view. */
async function begin(v) {
  await draw(v, crab);
  await v.run('renameSprite', { to: 'Crab' });
  await v.run('setStyle', { style: 'side-by-side' });
  await v.run('setCopies', { copies: 2 });
  await v.page.evaluate(() => document.querySelector('#views [data-name="Assemble"]').click());
  const told = await v.page.evaluate(() => window.sheetsprite.steps());
  await v.until('the steps', (s) => s.assembly?.steps > 0);
  return told.sprites[0];
}

const where = async (v) => {
  const { assembly } = await v.state();
  return { step: assembly.step, parts: assembly.parts };
};
const shown = (v, title) => v.text(title, '#step-title', new RegExp(`^${title}$`));
const all = (sprite, is) => sprite.parts.map((_, i) => is(i));

onThePage('steps are gone through by tap and by key; a foot switch sends one', {}, async (v) => {
  const sprite = await begin(v);
  const last = sprite.steps.length;
  assert.ok(last >= 4, `${last} steps`);
  await shown(v, `Step 1 of ${last}`);
  // What is drawn is what is new, and what lies there.
  const drawn = async () => ({
    fresh: await v.page.locator('#step-picture path.new').count(), lying: await v.page.locator('#step-picture path.lying').count(),
    buttons: await v.page.locator('#step-parts button').count(),
  });
  let lying = 0;
  const ways = [() => v.page.click('#step-next'), () => v.page.keyboard.press('ArrowRight'), () => v.page.keyboard.press('PageDown'), () => v.page.keyboard.press('Space'), () => v.page.keyboard.press('Enter')];
  for (let n = 0; n < last; n++) {
    const fresh = sprite.steps[n].parts.length;
    await v.until(`step ${n + 1} drawn`, (d) => d.fresh === fresh && d.lying === lying && d.buttons === fresh, drawn);
    await v.page.evaluate(() => document.activeElement?.blur());
    await ways[n % ways.length]();
    await v.until(`step ${n + 2}`, (s) => s.step === n + 2, () => where(v));
    lying += fresh;
  }
  await shown(v, 'Crab is together');
  assert.deepEqual((await where(v)).parts, all(sprite, () => 'stuck'));
  await v.page.keyboard.press('ArrowLeft');
  await v.page.keyboard.press('Backspace');
  await v.until('two steps back', (s) => s.step === last - 1, () => where(v));
  const open = sprite.steps.slice(-2).flatMap((s) => s.parts);
  assert.deepEqual((await where(v)).parts, all(sprite, (i) => (open.includes(i) ? '' : 'stuck')));
  await v.page.click('#step-back');
  await shown(v, `Step ${last - 2} of ${last}`);
  // Held in a field, keys are the field's; a button that has the keyboard is pressed by Space.
  await v.page.focus('[data-name="awake"]');
  await v.page.keyboard.press('ArrowRight');
  await v.page.focus('#step-back');
  await v.page.keyboard.press('Space');
  await shown(v, `Step ${last - 3} of ${last}`);
});

onThePage('a part is tapped: out, stuck, lost; what is lost goes to Cut again, and nothing else moves', {}, async (v) => {
  const sprite = await begin(v);
  const at = sprite.steps.findIndex((s) => s.parts.length > 2);
  await v.page.selectOption('[data-name="step"]', String(at + 1));
  const [first, second, third] = sprite.steps[at].parts;
  const number = (i) => sprite.parts[i].number;
  const before = await v.page.evaluate(() => window.sheetsprite.steps());
  await v.page.click(`[data-name="part ${number(second)}"]`);
  await v.page.click('#part-card [data-name="out"]');
  await v.until('it to be out', (s) => s.parts[second] === 'out', () => where(v));
  await v.text('what is said of it', '#part-card', /out of its sheet/);
  // In the picture itself, too.
  const on = await v.page.locator(`#step-picture path[data-part="${third}"]`).boundingBox();
  await v.page.mouse.click(on.x + on.width / 2, on.y + on.height / 2);
  await v.text('the part', '#part-card b', new RegExp(`^${number(third)}$`));
  await v.page.keyboard.press('s');
  await v.until('it to be stuck', (s) => s.parts[third] === 'stuck', () => where(v));
  await v.page.click(`[data-name="part ${number(first)}"]`);
  await v.page.click('#part-card [data-name="lost"]');
  await v.until('it to be cut again', (s) => s.choice.parts.join() === number(first) && s.assembly.parts[first] === 'lost');
  // All other parts are shown on the sheets that they came from.
  const after = await v.page.evaluate(() => window.sheetsprite.steps());
  assert.deepEqual(after.sprites[0].parts.map((p) => p.places), before.sprites[0].parts.map((p) => p.places));
  await v.page.click('[data-name="to-sheets"]');
  const sheets = await v.page.evaluate(() => window.sheetsprite.sheets());
  assert.deepEqual(sheets.parts.map((p) => p.number), [number(first)]);
  // Going on leaves it lost; once it is there it is cut again no more.
  await v.run('showView', { view: 'Assemble' });
  await v.run('goOn', { way: 'on' });
  assert.equal((await where(v)).parts[first], 'lost');
  await shown(v, `Step ${at + 2} of ${sprite.steps.length}`);
  await v.page.keyboard.press('ArrowLeft');
  await v.page.click(`[data-name="part ${number(first)}"]`);
  await v.page.click('#part-card [data-name="stuck"]');
  await v.until('nothing to cut again', (s) => s.choice.parts.length === 0);
  // A tap on what it is already takes that back.
  await v.page.click('#part-card [data-name="stuck"]');
  await v.until('it to be in its sheet', (s) => s.parts[first] === '', () => where(v));
});

onThePage('a step tells of its jig, and of the frame of the copy that is put together', {}, async (v) => {
  await begin(v);
  await v.run('setStyle', { style: 'fewest' });
  await v.run('pin', { key: 'D', place: 'highest' });
  await v.run('setCopies', { copies: 9 }); // more frames than one sheet has room for
  await v.run('setSheet', { w_mm: 70, h_mm: 55 }); // a jig goes onto it
  const { stock, heights: [height] } = (await v.planned()).stack.find((e) => e.key === 'D');
  await v.run('setWhole', { height, stock, how: 'whole' });
  await v.run('setJig', { height, stock: 'grey-board' });
  const told = await v.page.evaluate(() => window.sheetsprite.steps());
  const at = told.sprites[0].steps.findIndex((s) => s.frame);
  const on = told.sprites[0].steps[at].frame.sheets;
  assert.notEqual(on[0], on[8], `${on}`);
  for (const copy of [1, 9]) {
    await v.run('putTogether', { sprite: 'Crab', copy });
    await v.run('goToStep', { step: at + 1 });
    const { name, number } = told.sheets[on[copy - 1]];
    await v.text(`copy ${copy}’s frame`, '#step-words', new RegExp(`Left whole: .* stay in their frame from ${name}, sheet ${number}\\.`));
    await v.text('the jig', '#step-words', new RegExp(`There is a jig for height ${height}, of `));
  }
});

onAFirstVisit('how far one is outlives a reload, an edit and another project', {}, async (v) => {
  const sprite = await begin(v);
  await v.run('putTogether', { sprite: 'Crab', copy: 2 });
  await v.page.keyboard.press('ArrowRight');
  await v.page.keyboard.press('ArrowRight');
  const [lit] = sprite.steps[2].parts;
  await v.run('markParts', { sprite: 'Crab', copy: 2, parts: sprite.parts[lit].number, is: 'out' });
  const stuck = sprite.steps.slice(0, 2).flatMap((s) => s.parts);
  const want = { step: 3, parts: all(sprite, (i) => (i === lit ? 'out' : stuck.includes(i) ? 'stuck' : '')) };
  await v.until('it to be kept', (s) => s.saved);
  assert.deepEqual(await where(v), want);
  await v.page.evaluate(() => new Promise((done) => { setTimeout(done, 400); }));
  await v.load();
  await v.page.evaluate(() => window.sheetsprite.steps());
  const again = await v.until('the steps', (s) => s.view === 'Assemble' && s.assembly.steps > 0);
  assert.equal(again.assembly.copy, 2);
  assert.deepEqual(await where(v), want);
  // Another project between.
  await v.run('new', {});
  await v.run('reopen');
  await v.run('showView', { view: 'Assemble' });
  await v.page.evaluate(() => window.sheetsprite.steps());
  await v.run('putTogether', { sprite: 'Crab', copy: 2 });
  assert.deepEqual(await where(v), want);
  // A cell of an eye is drawn over: that part is another, its neighbours stay what they were.
  const eye = crab[2].indexOf('DD');
  await v.run('paintCells', { cells: [[eye, 2, 'C']] });
  await v.page.evaluate(() => window.sheetsprite.steps());
  const { assembly } = await v.state();
  assert.ok(assembly.parts.filter((p) => p === 'stuck').length >= stuck.length - 2, assembly.parts.join());
  assert.ok(assembly.parts.filter((p) => p !== '').length < want.parts.filter((p) => p !== '').length + 1);
  await v.run('undo');
  await v.page.evaluate(() => window.sheetsprite.steps());
  assert.deepEqual(await where(v), want);
});

onThePage('the glass stays lit while the view is open, where the browser allows it', {}, async (v) => {
  await v.page.evaluate(() => {
    window.locks = [];
    const request = async (kind) => {
      const lock = new EventTarget();
      lock.release = async () => { window.locks.push('released'); };
      window.locks.push(kind);
      return lock;
    };
    Object.defineProperty(navigator, 'wakeLock', { value: { request }, configurable: true });
  });
  const locks = () => v.page.evaluate(() => window.locks.join(' '));
  await begin(v);
  await v.until('it to be asked for', (s) => s === 'screen', locks);
  await v.run('keepAwake', { awake: 'off' });
  await v.until('it to be let go', (s) => s === 'screen released', locks);
  await v.page.check('[data-name="awake"]');
  await v.until('it to be asked for again', (s) => s === 'screen released screen', locks);
  await v.run('showView', { view: 'Draw' });
  await v.until('it to be let go', (s) => s === 'screen released screen released', locks);
  // A browser that won't says so, and is asked once.
  await v.page.evaluate(() => Object.defineProperty(navigator, 'wakeLock', { value: { request: () => { window.locks.push('asked'); return Promise.reject(new Error('no')); } }, configurable: true }));
  await v.run('showView', { view: 'Assemble' });
  await v.text('what it says', '#assemble-acts', /this browser won’t/);
  await v.settled(10);
  assert.equal((await locks()).match(/asked/g).length, 1);
  await v.page.evaluate(() => { delete navigator.wakeLock; });
});

onAFirstVisit('time left is told from typical times, or from the maker’s own', {}, async (v) => {
  const sprite = await begin(v);
  const { assembly } = await v.state();
  const seconds = sprite.parts.reduce((sum, p) => sum + (Math.max(...p.size) < 4 ? 90 : 45), 0); // common practice, no source
  assert.deepEqual([assembly.left, assembly.all], [seconds, 2 * seconds]);
  let typical = 0;
  for (const step of sprite.steps.slice(0, 4)) {
    const usual = step.parts.reduce((sum, i) => sum + (Math.max(...sprite.parts[i].size) < 4 ? 90 : 45), 0);
    typical += usual;
    await v.run('goOn', { way: 'on', seconds: 2 * usual });
  }
  assert.equal((await v.state()).assembly.left, seconds - typical);
  await v.page.selectOption('[data-name="pace"]', 'mine');
  await v.until('twice as long', (s) => s.assembly.left === 2 * (seconds - typical));
});

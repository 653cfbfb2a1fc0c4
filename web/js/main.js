// Sets the page up: shows that it is coming, loads the editor, brings back what
// was drawn last, connects the panels.

import { FrameGate } from './frames.js';
import { findPrograms, startEditor } from './boot.js';
import { announce, Page } from './bridge.js';
import { Editor, say } from './editor.js';
import { Maker } from './maker.js';
import { Planner } from './planner.js';
import { Saver } from './saver.js';
import { store } from './store.js';
import { takeGlass } from './glass.js';
import { setUpLayout } from './layout.js';
import { setUpIntro } from './intro.js';
import { setUpHead } from './head.js';
import { setUpTools } from './tools.js';
import { setUpStack } from './stack.js';
import { setUpCost } from './cost.js';
import { setUpRelief } from './relief.js';
import { setUpKeys } from './keys.js';
import { setUpFiles } from './drop.js';
import { setUpSheets } from './sheetsview.js';
import { setUpAssembly } from './assembly.js';
import { setUpViews } from './views.js';
import { byId } from './dom.js';

/** @typedef {import('./types').Core} Core */

const surface = announce();
const waiting = byId('waiting');

start().catch((error) => {
  console.error(error);
  waiting.hidden = false;
  waiting.textContent = String(error?.message ?? error);
  surface.fail(error);
});

async function start() {
  const gate = new FrameGate();
  /** @type {(core: Core) => void} */
  let attach = () => {};
  const attached = new Promise((/** @type {(core: Core) => void} */ resolve) => { attach = resolve; });
  let changed = () => {};
  window.sheetspriteHost = { attach, wake: gate.wake, changed: () => changed(), say };

  // What was drawn last is fetched while the program loads.
  const kept = Promise.all([store.get('project'), store.get('session'), store.get('pictures'), store.get('shelf'), store.get('machines')])
    .catch((error) => { console.warn('sheetsprite: the browser keeps nothing here:', error); return []; });
  const programs = await findPrograms((words) => { waiting.textContent = words; });
  await startEditor(programs, gate);
  const core = await attached;
  const [project, session, pictures, shelf, machines] = await kept;
  const opened = JSON.parse(core.open(project ?? null, session ?? null));
  if (!opened.error && pictures) core.restorePictures(pictures);
  if (shelf) core.restoreShelf(shelf);
  if (machines) core.restoreMachines(machines);

  const editor = new Editor(core);
  const planner = new Planner(core, programs, say);
  const page = new Page(editor, planner, new Maker(core, programs));
  const saver = keep(page, project !== undefined && !opened.error);
  changed = () => {
    editor.changed();
    planner.soon();
    saver.note();
  };
  takeGlass(/** @type {HTMLCanvasElement} */ (document.querySelector('body > canvas')), core, () => {
    void page.saveNow().finally(() => location.reload());
  });
  setUpIntro(page); // it takes room, so before the layout is told
  setUpLayout(page);
  setUpHead(page);
  setUpTools(page);
  setUpStack(page);
  setUpCost(page);
  setUpRelief(page);
  setUpKeys(page);
  setUpFiles(page);
  setUpSheets(page);
  setUpAssembly(page);
  setUpViews(page);
  waiting.hidden = true;
  byId('page').removeAttribute('aria-busy');
  if (opened.error) {
    say(`What was drawn here last can't be read, so the demo is shown (${opened.error}).`);
    await store.put({ 'unreadable project': project });
  }
  surface.open(page);
}

/** Keeps the drawing in the browser as it changes.
 * @param {Page} page
 * @param {boolean} there whether what is open is kept already */
function keep(page, there) {
  const { core } = page.editor;
  let noted = there ? core.kept() : -1;
  let written = core.kept();
  const saver = new Saver(() => {
    written = core.kept();
    return { project: core.projectFile(), session: core.session(), pictures: core.pictures(), shelf: core.shelf(), machines: core.machines() };
  }, (saved, problem) => {
    page.saveProblem = problem ? 'not saved' : '';
    if (problem) say(problem);
    if (saved) core.saved(written);
    page.editor.changed();
  });
  page.saveNow = () => saver.now();
  let hand = '';
  const note = () => {
    if (core.kept() !== noted) {
      noted = core.kept();
      saver.soon(250); // the plan of a stroke comes first
    }
  };
  page.editor.listen((view) => { // what is in hand is kept too
    const now = JSON.stringify([view.hand, view.picture, view.shelf, view.assembly]);
    if (hand && now !== hand) saver.soon();
    hand = now;
  });
  note();
  return { note };
}

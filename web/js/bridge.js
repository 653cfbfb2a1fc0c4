// window.sheetsprite: the page's automation surface, and what the page's
// modules share.

import { Assembly } from './assembly.js';
import { Editor } from './editor.js';
import { Maker } from './maker.js';
import { Planner } from './planner.js';
import { Sheets } from './sheets.js';

/** @typedef {import('./types').View} View */

/** What the page's modules share. */
export class Page {
  /** @type {Editor} */
  editor;
  /** @type {Planner} */
  planner;
  /** @type {Maker} */
  maker;
  /** @type {Sheets} */
  sheets;
  /** @type {Assembly} */
  assembly;
  /** @type {import('./sheetbench.js').SheetBench | null} */
  sheetBench = null;
  /** The frame in which the show of a cut goes on; 0: none. */
  playing = 0;
  /** Why the drawing can't be kept in the browser; '' where it is. */
  saveProblem = '';
  /** @type {() => void} */
  arrange = () => {};
  /** @type {{x: number, y: number}[]} */
  marks = [];
  /** @type {() => Promise<void>} */
  saveNow = async () => {};

  /** @param {Editor} editor
   * @param {Planner} planner
   * @param {Maker} maker */
  constructor(editor, planner, maker) {
    this.editor = editor;
    this.planner = planner;
    this.maker = maker;
    this.sheets = new Sheets(this);
    this.assembly = new Assembly(this);
  }

  /** Shows places of the grid for a while.
   * @param {{x: number, y: number}[]} places */
  mark(places) {
    this.marks = places;
    this.arrange();
    setTimeout(() => {
      if (this.marks !== places) return;
      this.marks = [];
      this.arrange();
    }, 6000);
  }
}

/** Makes the surface before anything is loaded, so that others can wait for it.
 * @returns {{open: (page: Page) => void, fail: (error: Error) => void}} */
export function announce() {
  /** @type {Page | null} */
  let page = null;
  /** @type {(value: undefined) => void} */
  let resolve = () => {};
  /** @type {(error: Error) => void} */
  let reject = () => {};
  const ready = new Promise((yes, no) => { resolve = yes; reject = no; });
  ready.catch(() => {}); // whoever waits is told; nobody has to wait
  const now = () => {
    if (!page) throw new Error('The editor is still being loaded: wait for sheetsprite.ready.');
    return page;
  };
  window.sheetsprite = Object.freeze({
    ready,
    run: async (/** @type {string} */ name, /** @type {unknown} */ args) => {
      await ready;
      return now().editor.order(name, args);
    },
    state: () => ({ ...JSON.parse(now().editor.core.state()), sheets: now().sheets.state(), steps: now().assembly.state() }),
    /** The sheets of the project as it is now, once they are laid. */
    sheets: async () => {
      await ready;
      await now().sheets.fresh();
      return now().sheets.state();
    },
    /** How all is put together, once that is worked out. */
    steps: async () => {
      await ready;
      await now().assembly.whole();
      return now().assembly.state();
    },
    /** How many frames the canvas has drawn so far. */
    frames: () => now().editor.core.frames(),
    bundle: async () => {
      await ready;
      return now().maker.bundle();
    },
  });
  return {
    open: (/** @type {Page} */ opened) => { page = opened; resolve(undefined); },
    fail: (/** @type {Error} */ error) => reject(error),
  };
}

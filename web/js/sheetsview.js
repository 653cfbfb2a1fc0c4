// The Sheets view, put together.

import { byId, refill, write } from './dom.js';
import { SheetBench } from './sheetbench.js';
import { setUpSheetList } from './sheetlist.js';

/** @typedef {import('./bridge.js').Page} Page */

/** @param {Page} page */
export function setUpSheets(page) {
  const { editor } = page;
  const sheets = page.sheets;
  editor.before.set('movePart', (args) => sheets.snapped(args));
  editor.before.set('lockPart', async (args) => { await sheets.fresh(); return args; });
  editor.before.set('keepLayout', async (args) => { if (!sheets.searching) await sheets.fresh(); return args; });
  const bench = new SheetBench(page, sheets);
  page.sheetBench = bench;
  setUpSheetList(page, sheets, bench);
  editor.listen((view) => {
    byId('sheets').hidden = view.view !== 'Sheets';
    sheets.soon();
    bench.show();
  });
  sheets.listen(() => {
    const busy = sheets.laying || sheets.searching;
    write(byId('sheets-note'), sheets.searching ? 'looking for a tighter layout…' : busy ? 'laying the parts on sheets…' : '');
    refill(byId('sheets-problem'), sheets.problem, () => (sheets.problem ? [sheets.problem] : []));
    bench.show();
  });
}

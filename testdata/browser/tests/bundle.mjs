// The cutting files: byte for byte the command's, and read by outside readers.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { draw, measured, onAFirstVisit, onThePage } from './suite.mjs';

const python = '/usr/bin/python3'; // Debian's: it has the modules
const outside = new URL('../../outside/dxf_layers.py', import.meta.url).pathname;

/** Does something with a folder of its own. */
async function inFolder(body) {
  const folder = mkdtempSync(join(tmpdir(), 'sheetsprite-'));
  try {
    return await body(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const bundleOf = async (v) => Buffer.from(await v.page.evaluate(async () => {
  const bytes = await window.sheetsprite.bundle();
  let text = '';
  for (let i = 0; i < bytes.length; i += 32768) text += String.fromCharCode(...bytes.subarray(i, i + 32768));
  return btoa(text);
}), 'base64');

/** What the command makes of the project that is open. */
async function commandsBundle(v, folder) {
  const { text } = await v.run('save');
  writeFileSync(join(folder, 'project.json'), text);
  execFileSync(process.env.SHEETSPRITE_COMMAND, ['cut', join(folder, 'project.json'), '-o', join(folder, 'out.zip')], { stdio: 'ignore' });
  return readFileSync(join(folder, 'out.zip'));
}

onAFirstVisit('the demo’s bundle is byte for byte the command’s', {}, (v, t) => inFolder(async (folder) => {
  const began = performance.now();
  const page = await bundleOf(v);
  measured(t, `bundle of the demo in the page ${((performance.now() - began) / 1000).toFixed(1)} s, ${(page.length / 1e6).toFixed(2)} MB`);
  assert.ok(page.equals(await commandsBundle(v, folder)));
}));

onThePage('the bundle of a drawing made by strokes is byte for byte the command’s', {}, (v) => inFolder(async (folder) => {
  await v.run('new', { width: 20, height: 16, name: 'Quay', cell: 2.5 });
  const stroke = async (...cells) => {
    await v.page.mouse.move(...await v.at(...cells[0]));
    await v.page.mouse.down();
    for (const cell of cells.slice(1)) await v.page.mouse.move(...await v.at(...cell), { steps: 4 });
    await v.page.mouse.up();
  };
  const keys = (await v.state()).palette.map((e) => e.key);
  await stroke([2, 2], [17, 2], [17, 13], [2, 13], [2, 2]);
  await v.run('choose', { key: keys[2] });
  await v.run('tool', { tool: 'fill' });
  await stroke([5, 5]);
  await v.run('tool', { tool: 'pencil' });
  await v.run('choose', { key: keys[3] });
  await stroke([4, 4], [15, 11]);
  await v.run('outline', { side: 'outside', corners: 'with' });
  // Asked for at once: it waits for the final plan of the last edit.
  const page = await bundleOf(v);
  assert.ok(page.equals(await commandsBundle(v, folder)));
}));

onThePage('the button downloads the bundle, and outside readers read it', {}, (v) => inFolder(async (folder) => {
  await draw(v, ['.AAAA.', 'AABBAA', 'ABCCBA', 'AABBAA', '.AAAA.']);
  await v.planned();
  await v.page.click('#files');
  const coming = v.page.waitForEvent('download');
  await v.page.getByRole('button', { name: 'Download' }).click();
  const download = await coming;
  assert.match(download.suggestedFilename(), /^[a-z0-9-]+\.zip$/);
  const zip = join(folder, 'bundle.zip');
  await download.saveAs(zip);
  execFileSync(python, ['-m', 'zipfile', '-e', zip, folder]);
  const job = JSON.parse(readFileSync(join(folder, 'job.json'), 'utf8'));
  assert.equal(job.format, 'sheetsprite-job');
  const { plan } = await v.state();
  assert.equal(job.totals.parts, plan.parts);
  assert.equal(job.totals.parts_by_patch, plan.patches);
  // ezdxf, Shapely and GDAL; the DXF specification's reader rules are in ezdxf's recover.
  const dxfs = job.sprites.flatMap((s) => s.layers.map((l) => join(folder, l.dxf)));
  assert.equal(dxfs.length, job.sprites[0].layers.length);
  const lines = execFileSync(python, [outside, ...dxfs], { encoding: 'utf8' }).trim().split('\n').map((l) => JSON.parse(l));
  assert.equal(lines.length, dxfs.length);
  lines.forEach((line, i) => {
    assert.deepEqual([line.errors, line.fixes], [[], []], line.path);
    const parts = Object.values(line.layers).reduce((n, l) => n + l.parts, 0);
    assert.equal(parts, job.sprites[0].layers[i].parts, line.path);
  });
  // librsvg draws the layers.
  for (const layer of job.sprites[0].layers) {
    execFileSync('rsvg-convert', [join(folder, layer.svg), '-o', join(folder, 'layer.png')]);
  }
}));

onThePage('the cutting files go to the system’s share sheet where there is one', {}, async (v) => {
  await draw(v, ['AAAA', 'ABBA', 'AAAA']);
  await v.planned();
  await v.page.evaluate(() => { // a system that takes files, but only soon after a press (W3C Web Share)
    window.handed = [];
    navigator.canShare = ({ files }) => files.every((f) => f.type === 'application/zip');
    navigator.share = async ({ files }) => {
      if (!navigator.userActivation.isActive || window.handed.length === 0 && !window.refusedOnce) {
        window.refusedOnce = true;
        throw new DOMException('too late', 'NotAllowedError');
      }
      window.handed.push([files[0].name, await files[0].arrayBuffer()]);
    };
  });
  await v.page.click('#files');
  const button = v.page.getByRole('button', { name: 'Share', exact: true });
  await button.click();
  await v.text('how it went', 'dialog[open] [role=status]', /Press Share again/);
  await button.click();
  const [name, same] = await v.until('the file', Boolean, () => v.page.evaluate(async () => {
    if (!window.handed.length) return null;
    const [name, data] = window.handed[0];
    const want = await window.sheetsprite.bundle();
    const got = new Uint8Array(data);
    return [name, got.length === want.length && got.every((b, i) => b === want[i])];
  }));
  assert.match(name, /^[a-z0-9-]+\.zip$/);
  assert.ok(same);
  await v.page.evaluate(() => { delete navigator.canShare; delete navigator.share; });
});

onThePage('an edit keeps the numbers of parts that it leaves as they were', {}, async (v) => {
  const numbers = async () => JSON.parse((await v.run('save')).text).sprites[0].numbers?.parts ?? [];
  const named = (parts, q) => parts.find((p) => p.height === q.height && p.print === q.print)?.number;
  await v.run('new', { width: 12, height: 8, name: 'Mooring', cell: 3 });
  const keys = (await v.state()).palette.map((e) => e.key);
  await v.run('choose', { key: keys[1] });
  await v.run('draw', { points: [0.5, 0.5, 9.5, 0.5] });
  await v.run('choose', { key: keys[2] });
  await v.run('draw', { points: [6.5, 0.5] });
  assert.deepEqual(await numbers(), [], 'nobody has seen any yet');
  const { undo } = await v.state();
  await v.page.evaluate(() => window.sheetsprite.bundle());
  const first = await numbers();
  assert.equal((await v.state()).undo, undo, 'no step of undo');
  assert.ok(first.length >= 2);
  await v.run('draw', { points: [3.5, 0.5] }); // comes before the other in the order of reading
  await v.page.evaluate(() => window.sheetsprite.bundle());
  const second = await numbers();
  for (const q of first) assert.equal(named(second, q), q.number);
  assert.ok(second.length > first.length);
});

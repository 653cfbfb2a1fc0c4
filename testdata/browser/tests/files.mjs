// Files that come in and what stays: hostile projects, pictures, reloads.
import assert from 'node:assert/strict';
import { draw, onThePage } from './suite.mjs';

/** The project that is open, as its file's data. */
const saved = async (v) => JSON.parse((await v.run('save')).text);

const ring = ['AAAA', 'A..A', 'AAAA'];

onThePage('hostile project files are refused with a sentence and change nothing', {}, async (v) => {
  await draw(v, ring);
  const good = await saved(v);
  const changed = (change) => {
    const p = structuredClone(good);
    change(p);
    return JSON.stringify(p);
  };
  const before = await v.state();
  const hostile = {
    nothing: '', 'a bracket': '{', 'a list': '[]', null: 'null', 'a number': '17', 'another thing': { sprites: 7 },
    'of the future': changed((p) => { p.version = 99; }),
    'of another program': changed((p) => { p.format = 'other'; }),
    'deep': '{"a":'.repeat(20000),
    'deeper': '['.repeat(200000),
    'long': `{"name":"${'x'.repeat(8_000_000)}"`,
    'with a zero byte': '\u0000\u0000\u0000\u0000',
    'cut off': JSON.stringify(good).slice(0, -40),
    'with a second thing after it': `${JSON.stringify(good)} {}`,
    'without sprites': changed((p) => { p.sprites = []; }),
    'with a sprite of nonsense': changed((p) => { p.sprites[0] = { name: 5 }; }),
    'with the same sprite twice': changed((p) => { p.sprites.push(p.sprites[0]); }),
    'without a palette': changed((p) => { p.palette = []; }),
    'with text for numbers': JSON.stringify(good).replace(/:\s*\d+(\.\d+)?/g, ':"1e999"'),
    'with numbers beyond all': JSON.stringify(good).replace(/:\s*\d+(\.\d+)?/g, ':1e308'),
    'with numbers below nothing': JSON.stringify(good).replace(/:\s*(\d+)/g, ':-$1000'),
  };
  for (const [name, project] of Object.entries(hostile)) {
    await assert.rejects(v.run('open', { project }), (e) => {
      assert.match(e.message, /[a-z].{20}/s, name);
      assert.ok(e.message.length < 1000, `${name}: a sentence, not the file back`);
      return true;
    }, name);
  }
  const { revision: _, ...after } = await v.state();
  const { revision: __, ...was } = before;
  for (const part of ['sprite', 'palette', 'sprites', 'undo', 'redo', 'former', 'project']) assert.deepEqual(after[part], was[part], part);
  await v.run('open', { project: JSON.stringify(good) });
  assert.deepEqual((await v.state()).sprite.rows, ring, 'the unspoilt one opens');
});

onThePage('a hostile file that is chosen or dropped says why on the page', {}, async (v) => {
  await draw(v, ring);
  await v.page.click('#more');
  const chooser = v.page.waitForEvent('filechooser');
  await v.page.getByRole('button', { name: 'Open a file' }).click();
  await (await chooser).setFiles({ name: 'boat.json', mimeType: 'application/json', buffer: Buffer.from('{"format":"boat"}') });
  await v.text('the reason', '#say', /[a-z].{20}/);
  assert.deepEqual((await v.state()).sprite.rows, ring);

  for (const [name, type, text] of [['gull.png', 'image/png', 'not a picture'], ['gull.exe', 'application/octet-stream', 'MZ'], ['gull.json', 'application/json', '\u0000']]) {
    await v.page.evaluate(([n, kind, held]) => {
      document.getElementById('say').textContent = '';
      const data = new DataTransfer();
      data.items.add(new File([held], n, { type: kind }));
      const target = document.querySelector('body > canvas');
      for (const event of ['dragenter', 'dragover', 'drop']) target.dispatchEvent(new DragEvent(event, { dataTransfer: data, bubbles: true, cancelable: true }));
    }, [name, type, text]);
    await v.text(`why ${name} can’t be read`, '#say', /[a-z].{12}/);
    assert.deepEqual((await v.state()).sprite.rows, ring, name);
  }
});

onThePage('a project that is opened leaves a way back to the one before', {}, async (v) => {
  await draw(v, ring);
  const other = await saved(v);
  other.name = 'Other';
  await draw(v, ['AB']);
  await v.run('open', { project: JSON.stringify(other) });
  assert.deepEqual((await v.state()).sprite.rows, ring);
  await v.run('reopen');
  assert.deepEqual((await v.state()).sprite.rows, ['AB']);
});

onThePage('what was drawn is there after a reload, and after the drawing context is lost', {}, async (v) => {
  await v.run('draw', { points: [0.5, 0.5, 8.5, 0.5] });
  const { rows } = (await v.state()).sprite;
  await v.until('saving', (s) => s.saved);
  await v.load();
  assert.deepEqual((await v.state()).sprite.rows, rows);

  await v.run('draw', { points: [0.5, 2.5, 8.5, 2.5] });
  const more = (await v.state()).sprite.rows;
  assert.notDeepEqual(more, rows);
  const reloaded = v.page.waitForNavigation();
  await v.page.evaluate(() => document.querySelector('body > canvas').getContext('webgl2').getExtension('WEBGL_lose_context').loseContext());
  await reloaded;
  await v.page.evaluate(() => window.sheetsprite.ready);
  assert.deepEqual((await v.state()).sprite.rows, more);
});

onThePage('what is typed into names stays text', {}, async (v) => {
  const name = '<img src=x onerror="console.error(1)"><b>&amp;';
  await v.run('renameSprite', { to: name });
  await v.run('renameProject', { name });
  await v.text('the name', '#title-name', /^<img/);
  await v.page.click('#title');
  await v.page.waitForSelector('dialog[open]');
  assert.equal(await v.page.locator('dialog img').count(), 0);
});

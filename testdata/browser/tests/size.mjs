// Real size: calibrated once, the preview shows true millimetres. The judge is
// a picture of the page, measured pixel by pixel outside the browser (OpenCV).
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { draw, onThePage } from './suite.mjs';

/** Width and height in pixels of what is red in a picture. */
function red(png) {
  const script = `
import sys, cv2, numpy as np
p = cv2.imdecode(np.frombuffer(sys.stdin.buffer.read(), np.uint8), cv2.IMREAD_COLOR).astype(int)
b, g, r = p[..., 0], p[..., 1], p[..., 2]
y, x = np.nonzero((r > 90) & (r > 1.7 * g) & (r > 1.7 * b))
print(x.max() - x.min() + 1, y.max() - y.min() + 1)`;
  return execFileSync('/usr/bin/python3', ['-c', script], { input: png, encoding: 'utf8' }).trim().split(' ').map(Number);
}

for (const pxPerMm of [96 / 25.4, 5.2]) {
  onThePage(`calibrated to ${pxPerMm.toFixed(2)} pixels a mm, the preview shows true millimetres`, { width: 1920, height: 1080 }, async (v) => {
    const c = (await v.state()).palette.find((e) => /red/i.test(e.name)).key;
    await draw(v, Array.from({ length: 8 }, (_, y) => (y === 0 || y === 7 ? '.'.repeat(12) : `.${c.repeat(10)}.`)));
    await v.run('setCell', { mm: 4 });
    await v.planned();
    await v.page.click('#relief-size');
    await v.page.getByRole('button', { name: 'Fit to this glass' }).click();
    // The card on the glass is a bank card: ISO/IEC 7810 ID-1, 85.60 × 53.98 mm.
    const ruler = v.page.getByLabel(/100 mm on a ruler/);
    await ruler.fill(String(Math.round(pxPerMm * 100 * 10) / 10));
    await ruler.press('Tab');
    const card = await v.page.locator('#bank-card').boundingBox();
    assert.ok(Math.abs(card.width - 85.6 * pxPerMm) < 1, `${card.width} px`);
    assert.ok(Math.abs(card.height - 53.98 * pxPerMm) < 1, `${card.height} px`);
    await v.page.getByRole('button', { name: 'It fits' }).click();
    const s = await v.until('real size', (t) => Math.abs(t.preview.pxPerMm - pxPerMm) < 0.01);
    assert.ok(Math.abs(s.calibration.pxPerMm - pxPerMm) < 0.01);
    assert.ok(Math.abs(s.preview.width - 40 * pxPerMm) < 0.5, `${s.preview.width} px for 40 mm`);
    assert.ok(Math.abs(s.preview.height - 24 * pxPerMm) < 0.5, `${s.preview.height} px for 24 mm`);
    await v.settled();
    const { x, y, width, height } = await v.page.locator('#relief').boundingBox();
    const [wide, high] = red(await v.page.screenshot({ clip: { x, y, width, height } }));
    // Good to the pixel at each edge, and one for the light on the card's rim.
    assert.ok(Math.abs(wide - 40 * pxPerMm) <= 3, `${wide} px on the glass for 40 mm at ${pxPerMm}`);
    assert.ok(Math.abs(high - 24 * pxPerMm) <= 3, `${high} px on the glass for 24 mm at ${pxPerMm}`);

    // The scale bar is as long as it says.
    const bar = await v.page.locator('#relief-bar').boundingBox();
    const [, length] = /^(\d+) mm$/.exec(await v.page.textContent('#relief-bar-words'));
    assert.ok(Math.abs(bar.width - Number(length) * pxPerMm) <= 1, `a bar of ${bar.width} px for ${length} mm`);
  });
}

onThePage('cell size and overall size follow one another, in mm and in inches', {}, async (v) => {
  await v.page.click('#relief-size');
  const cell = v.page.getByLabel('Cell (mm)');
  assert.equal(await cell.inputValue(), '3');
  await cell.fill('2.5');
  await cell.press('Tab');
  await v.until('2.5 mm', (s) => s.sprite.cell === 2.5);
  assert.equal(await v.page.getByLabel('Width (mm)').inputValue(), '60');
  const width = v.page.getByLabel('Width (mm)');
  await width.fill('48');
  await width.press('Tab');
  await v.until('2 mm', (s) => s.sprite.cell === 2);
  await v.page.getByLabel('Lengths in').selectOption('in');
  const inches = v.page.getByLabel('Width (in)');
  await inches.fill('2.4'); // 60.96 mm: 1 in = 25.4 mm
  await inches.press('Tab');
  await v.until('2.54 mm', (s) => s.sprite.cell === 2.54);
});

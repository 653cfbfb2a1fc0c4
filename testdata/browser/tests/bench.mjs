// My bench: the maker's machines stay on the device, whatever project is open.
import assert from 'node:assert/strict';
import { onAFirstVisit } from './suite.mjs';

const openBench = async (v) => {
  await v.page.click('#more');
  await v.page.getByRole('button', { name: 'My bench' }).click();
};
const machine = async (v) => (await v.run('bench')).machine;

onAFirstVisit('machines outlive projects and reloads; a project is cut on one of them', {}, async (v) => {
  await v.run('new', {});
  await openBench(v);
  const name = v.page.locator('dialog [data-name="name"]');
  await name.fill('Shed laser');
  await name.press('Tab');
  await v.page.click('dialog [data-name="another"]');
  await v.until('another machine', (m) => m.name === 'Machine 2', () => machine(v));
  await v.page.locator('dialog [data-name="which"]').selectOption('Shed laser');
  await v.until('the first one', (m) => m.name === 'Shed laser', () => machine(v));
  const { palette: [{ stock }] } = await v.state();
  await v.run('setUse', { stock, power: 33, speed: 21 });
  await v.until('it to be kept', (s) => s.saved);
  await v.page.evaluate(() => new Promise((done) => { setTimeout(done, 400); }));
  await v.load();
  await v.run('new', {});
  const bench = await v.run('bench');
  assert.deepEqual(bench.machines, ['Shed laser', 'Machine 2']);
  assert.deepEqual([bench.machine.name, bench.stocks[0].power, bench.stocks[0].speed], ['Shed laser', 33, 21]);
  await openBench(v);
  await v.page.click('dialog [data-name="off Machine 2"]');
  await v.until('one machine', (b) => b.machines.length === 1, () => v.run('bench'));
});

// The server: for this computer only, with strict headers, compressed.
import { test } from 'node:test';
import assert from 'node:assert/strict';
import { request } from 'node:http';
import { brotliDecompressSync } from 'node:zlib';

const address = new URL(process.env.SHEETSPRITE_ADDRESS);

/** @returns {Promise<{status: number, headers: any, body: Buffer}>} */
const ask = (path, { method = 'GET', ...headers } = {}) => new Promise((resolve, reject) => {
  const r = request({ host: address.hostname, port: address.port, path, method, headers }, (answer) => {
    const parts = [];
    answer.on('data', (d) => parts.push(d));
    answer.on('end', () => resolve({ status: answer.statusCode, headers: answer.headers, body: Buffer.concat(parts) }));
  });
  r.on('error', reject);
  r.end();
});

test('only this computer’s own names are answered', async () => {
  for (const host of [address.host, `localhost:${address.port}`]) assert.equal((await ask('/', { host })).status, 200, host);
  for (const host of ['example.org', `example.org:${address.port}`, '127.0.0.1.example.org', `192.0.2.1:${address.port}`, 'localhost.example']) {
    const { status, body } = await ask('/', { host });
    assert.equal(status, 403, host);
    assert.doesNotMatch(String(body), /<script/);
  }
});

test('the address is on the loopback interface', () => {
  assert.equal(address.hostname, '127.0.0.1');
});

test('strict headers on everything, and only reading', async () => {
  for (const path of ['/', '/build.json', '/nothing']) {
    const { headers } = await ask(path);
    const policy = headers['content-security-policy'];
    assert.match(policy, /default-src 'none'/);
    assert.match(policy, /script-src 'self' 'wasm-unsafe-eval'(;|$)/);
    assert.doesNotMatch(policy, /unsafe-inline|'unsafe-eval'|https?:|\*/);
    assert.equal(headers['x-content-type-options'], 'nosniff');
  }
  for (const method of ['POST', 'PUT', 'DELETE']) assert.equal((await ask('/', { method })).status, 405);
  for (const path of ['/../go.mod', '/..%2fgo.mod', '/a/0/../../go.mod', '/embed.go']) assert.equal((await ask(path)).status, 404, path);
});

test('right types, brotli, and caching by content', async () => {
  const { web, worker, glue } = JSON.parse(String((await ask('/build.json')).body));
  for (const [path, type] of [[web, 'application/wasm'], [worker, 'application/wasm'], [glue, /^text\/javascript/]]) {
    const { status, headers, body } = await ask(`/${path}`, { 'accept-encoding': 'br' });
    assert.equal(status, 200);
    assert.match(headers['content-type'], new RegExp(type));
    assert.match(headers['cache-control'], /immutable/);
    if (type === 'application/wasm') {
      assert.equal(headers['content-encoding'], 'br');
      // WebAssembly Core Specification, 5.5.16: "\0asm", version 1.
      assert.equal(brotliDecompressSync(body).subarray(0, 8).toString('hex'), '0061736d01000000');
    }
  }
  const page = await ask('/', { 'accept-encoding': 'identity' });
  assert.match(page.headers['content-type'], /^text\/html/);
  const scripts = [...String(page.body).matchAll(/(?:src|href)="([^"]+)"/g)].map((m) => m[1]);
  assert.ok(scripts.length > 3);
  for (const path of scripts) {
    assert.doesNotMatch(path, /^(https?:)?\/\//, 'no third party');
    assert.match((await ask(`/${path}`)).headers['cache-control'], /immutable/, path);
  }
});

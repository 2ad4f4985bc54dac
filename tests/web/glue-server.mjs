// Serves the page's own JavaScript, and for any other address a page with nothing on it, under the policy of the real one.
import { once } from 'node:events';
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { root } from './browser.mjs';

const policy = "default-src 'none'; script-src 'self'; style-src 'self'; worker-src 'self'; connect-src 'self'";

/** {url(name), close()}. A browser keeps what it stores by origin: each name is an origin of its own, on loopback.
 *  `answer(request, response)` may answer in its place, and then returns true. */
export async function serveGlue(answer = () => false) {
  const server = createServer(async (request, response) => {
    if (await answer(request, response)) return;
    const name = new URL(request.url, 'http://x').pathname.slice(1);
    const script = /^[a-z-]+\.js$/.test(name);
    if (name === 'page.css' || script) {
      response.writeHead(200, { 'Content-Type': script ? 'text/javascript' : 'text/css' });
      return response.end(await readFile(`${root}/wasm/${name}`));
    }
    response.writeHead(200, { 'Content-Type': 'text/html; charset=utf-8', 'Content-Security-Policy': policy });
    response.end('<!doctype html><html lang="en"><meta name="viewport" content="width=device-width"><title>glue</title><link rel="stylesheet" href="/page.css"><main id="mirror"></main>');
  }).listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address();
  return {
    url: (name) => `http://${name}.localhost:${port}/`,
    close() {
      server.close();
      server.closeAllConnections();
    },
  };
}

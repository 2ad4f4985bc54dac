// The two other engines that phones have, each with a window on a screen of its own. An engine gives
// {evaluate(function, ...arguments), goto(url), click(x, y), close()}.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readdirSync } from 'node:fs';
import { createServer } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';

const FIREFOX = ['/usr/bin/firefox-esr', '/usr/bin/firefox'].find(existsSync);
const WEBKIT_DRIVER = ['/usr/bin/WebKitWebDriver'].find(existsSync);

function miniBrowser() {
  for (const library of readdirSync('/usr/lib').filter((name) => name.endsWith('-linux-gnu'))) {
    const path = `/usr/lib/${library}/webkit2gtk-4.1/MiniBrowser`;
    if (existsSync(path)) return path;
  }
  return undefined;
}

/** What stands in the way of a test with these engines, or nothing. */
export const missing = {
  firefox: !existsSync('/usr/bin/Xvfb') ? 'Xvfb is not installed' : !FIREFOX && 'Firefox is not installed',
  webkit: !existsSync('/usr/bin/Xvfb') ? 'Xvfb is not installed' : !(WEBKIT_DRIVER && miniBrowser()) && 'WebKitGTK and its driver are not installed',
};

async function end(child) {
  if (child.exitCode !== null || child.signalCode !== null) return;
  child.kill('SIGTERM');
  await once(child, 'exit');
}

// A screen without a monitor: {environment, close()}. WebGL 2 comes from software, and only in a window.
async function openScreen() {
  const child = spawn('/usr/bin/Xvfb', ['-displayfd', '3', '-screen', '0', '1024x1000x24', '-nolisten', 'tcp'],
    { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] });
  const [number] = await once(child.stdio[3], 'data');
  return {
    environment: { ...process.env, DISPLAY: `:${String(number).trim()}`, LIBGL_ALWAYS_SOFTWARE: '1' },
    close: () => end(child),
  };
}

async function freePort() {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address();
  server.close();
  await once(server, 'close');
  return port;
}

export async function openFirefox() {
  const { default: puppeteer } = await import('puppeteer-core');
  const screen = await openScreen();
  const browser = await puppeteer.launch({
    browser: 'firefox', executablePath: FIREFOX, headless: false, env: screen.environment,
    extraPrefsFirefox: { 'webgl.force-enabled': true, 'webgl.enable-webgl2': true, 'intl.accept_languages': 'en-US' },
  });
  const page = await browser.newPage();
  await page.setViewport({ width: 390, height: 844 });
  return {
    evaluate: (script, ...values) => page.evaluate(script, ...values),
    goto: (url) => page.goto(url),
    click: (x, y) => page.mouse.click(x, y),
    async close() {
      await browser.close();
      await screen.close();
    },
  };
}

export async function openWebKit() {
  const { Builder, Capabilities } = (await import('selenium-webdriver')).default;
  const screen = await openScreen();
  const port = await freePort();
  const driverProcess = spawn(WEBKIT_DRIVER, [`--port=${port}`],
    { env: { ...screen.environment, WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1' }, stdio: 'ignore' });
  const address = `http://127.0.0.1:${port}`;
  while (!await fetch(`${address}/status`).then(() => true, () => false)) {
    if (driverProcess.exitCode !== null) throw new Error('WebKitWebDriver did not start');
    await sleep(50);
  }
  const driver = await new Builder().usingServer(address).withCapabilities(new Capabilities({
    browserName: 'MiniBrowser', 'webkitgtk:browserOptions': { binary: miniBrowser(), args: ['--automation'] },
  })).build();
  await driver.manage().setTimeouts({ script: 60000 });
  await driver.manage().window().setRect({ width: 420, height: 960 });
  return {
    async evaluate(script, ...values) {
      const answer = await driver.executeAsyncScript(
        `const done = arguments[arguments.length - 1];
         Promise.resolve((${script})(...Array.prototype.slice.call(arguments, 0, -1))).then((value) => done({ value }), (error) => done({ error: String(error) }));`,
        ...values);
      if (answer.error) throw new Error(answer.error);
      return answer.value;
    },
    goto: (url) => driver.get(url),
    click: (x, y) => driver.actions().move({ x: Math.round(x), y: Math.round(y), origin: 'viewport' }).click().perform(),
    async close() {
      await driver.quit();
      await end(driverProcess);
      await screen.close();
    },
  };
}

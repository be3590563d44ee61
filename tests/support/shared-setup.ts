/**
 * What the tests of one run share: a Chromium for plain pages, one for JupyterLab, one JupyterLab. Each is started when
 * the first test asks for it, and ended with the run, however that ends. Workers of vitest are processes of their own, so
 * they ask over a port of this machine.
 */
import fs from 'node:fs';
import http from 'node:http';
import type { AddressInfo } from 'node:net';
import os from 'node:os';
import path from 'node:path';
import { chromium, type BrowserServer } from 'playwright-core';
import type { TestProject } from 'vitest/node';
import { startLabServer } from './lab-server.js';

declare module 'vitest' {
  interface ProvidedContext {
    shared: { readonly url: string; readonly folder: string };
  }
}

const BROWSER_ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
  '--font-render-hinting=none',
];

async function startBrowser(): Promise<BrowserServer> {
  const executablePath = process.env['CHROMIUM'] ?? '/usr/bin/chromium';
  if (!fs.existsSync(executablePath))
    throw new Error(`no Chromium at ${executablePath}: npm test installs it, or set CHROMIUM`);
  return chromium.launchServer({ executablePath, args: BROWSER_ARGS, host: '127.0.0.1' });
}

interface Service {
  readonly told: unknown;
  stop(): Promise<void>;
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cocked-hat-tests-'));
  const started = new Map<string, Promise<Service>>();
  const browser = async () => {
    const server = await startBrowser();
    return { told: server.wsEndpoint(), stop: () => server.close() };
  };
  const starters: Readonly<Record<string, () => Promise<Service>>> = {
    // The clipboard belongs to a whole browser, so pages in JupyterLab do not share one with plain pages.
    '/browser/pages': browser,
    '/browser/lab': browser,
    '/lab': async () => {
      const { address, stop } = await startLabServer(path.join(folder, 'lab'));
      return { told: address, stop };
    },
  };
  const server = http.createServer((request, answer) => {
    const name = request.url ?? '';
    const start = starters[name];
    const service =
      started.get(name) ?? start?.() ?? Promise.reject(new Error(`no service ${name}`));
    started.set(name, service);
    service.then(
      ({ told }) => answer.end(JSON.stringify(told)),
      (error: unknown) => answer.writeHead(500).end(String(error)),
    );
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  project.provide('shared', { url: `http://127.0.0.1:${port}`, folder });
  return async () => {
    server.close();
    const services = await Promise.allSettled(started.values());
    await Promise.allSettled(
      services.map((s) => (s.status === 'fulfilled' ? s.value.stop() : undefined)),
    );
    fs.rmSync(folder, { recursive: true, force: true });
  };
}

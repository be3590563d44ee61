import fs from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import type { TestLab } from './browser.js';

/** JupyterLab asks for a kernel when a notebook's own is missing; tests of outputs need none. */
async function declineKernel(page: Page): Promise<void> {
  const button = page.locator('.jp-Dialog button', { hasText: /^No Kernel$/ });
  await button.click({ timeout: 4000 }).catch(() => {});
}

export type Theme =
  'JupyterLab Light' | 'JupyterLab Dark' | 'JupyterLab Dark High Contrast' | 'Red night';

/** Writes `text` as a notebook into the lab's folder and opens it. */
export async function showNotebook(
  page: Page,
  lab: TestLab,
  name: string,
  text: string,
): Promise<void> {
  fs.writeFileSync(path.join(lab.folder, name), text);
  await page.goto(lab.url(name));
  await page.locator('.jp-NotebookPanel').waitFor({ timeout: 60_000 });
  await declineKernel(page);
}

/** Switches the whole window's theme as the settings menu does. */
export async function chooseTheme(page: Page, theme: Theme): Promise<void> {
  await page.evaluate(async (name) => {
    const app = (
      window as unknown as {
        jupyterapp: { commands: { execute(id: string, args: object): Promise<unknown> } };
      }
    ).jupyterapp;
    await app.commands.execute('apputils:change-theme', { theme: name });
  }, theme);
  await page.waitForFunction((name) => document.body.dataset['jpThemeName'] === name, theme);
  await page.waitForTimeout(400);
}

/** Opens a notebook of the lab's folder, its kernel started. */
export async function openNotebook(page: Page, lab: TestLab, file: string): Promise<void> {
  await page.goto(lab.url(file));
  await page.locator('.jp-NotebookPanel').waitFor({ timeout: 60_000 });
  await page
    .locator('#jp-main-statusbar', { hasText: /Cocked Hat \| Idle/ })
    .waitFor({ timeout: 60_000 });
}

type App = { commands: { execute(id: string, args?: object): Promise<unknown> } };

/** Runs a command of JupyterLab, as its menus do. */
export async function command(page: Page, id: string, args: object = {}): Promise<void> {
  await page.evaluate(
    async ([name, given]) => {
      const app = (window as unknown as { jupyterapp: App }).jupyterapp;
      await app.commands.execute(name, given);
    },
    [id, args] as const,
  );
}

/** Runs all cells and waits until the last is done. @throws Error naming the first cell that failed */
export async function runAll(page: Page): Promise<void> {
  await command(page, 'notebook:run-all-cells');
  await page.waitForFunction(
    () =>
      [...document.querySelectorAll('.jp-CodeCell .jp-InputPrompt')].every((e) =>
        /\[\d+\]/.test(e.textContent ?? ''),
      ),
    undefined,
    { timeout: 120_000 },
  );
  const failed = page.locator(
    '.jp-OutputArea [data-mime-type="application/vnd.jupyter.stderr"], .jp-RenderedText[data-mime-type="application/vnd.jupyter.error"]',
  );
  if ((await failed.count()) > 0) throw new Error(await failed.first().innerText());
}

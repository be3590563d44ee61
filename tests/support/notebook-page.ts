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

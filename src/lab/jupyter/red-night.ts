import type { ThemeManager } from './host.js';
import css from './red-night.css';

const NAME = 'Red night';

/** A whole-window theme in red on black, nothing brighter, to keep eyes used to the dark. */
export function registerRedNight(manager: ThemeManager): void {
  let style: HTMLStyleElement | undefined;
  manager.register({
    name: NAME,
    displayName: NAME,
    isLight: false,
    themeScrollbars: true,
    async load() {
      await manager.loadCSS('@jupyterlab/theme-dark-extension/index.css');
      style ??= document.createElement('style');
      style.textContent = css;
      document.head.append(style);
    },
    async unload() {
      style?.remove();
    },
  });
}

/** Colour roles of css/roles.css as they are for this element now. */
export type Role =
  | 'paper'
  | 'ink'
  | 'faint'
  | 'rule'
  | 'accent'
  | 'region'
  | 'region-edge'
  | 'caution'
  | 'rejected'
  | 'disc';

export function colours(element: Element): Record<Role, string> {
  const style = getComputedStyle(element);
  const role = (name: Role) => style.getPropertyValue(`--ch-${name}`).trim();
  return {
    paper: role('paper'),
    ink: role('ink'),
    faint: role('faint'),
    rule: role('rule'),
    accent: role('accent'),
    region: role('region'),
    'region-edge': role('region-edge'),
    caution: role('caution'),
    rejected: role('rejected'),
    disc: role('disc'),
  };
}

/** The hues for several bodies or observers, in order. */
export function hues(element: Element): string[] {
  const style = getComputedStyle(element);
  return [1, 2, 3, 4, 5, 6].map((i) => style.getPropertyValue(`--ch-hue-${i}`).trim());
}

/** Calls back when the page's theme may have changed; returns what ends that. */
export function onThemeChange(listener: () => void): () => void {
  const observer = new MutationObserver(listener);
  const options = {
    attributes: true,
    attributeFilter: ['data-jp-theme-name', 'data-jp-theme-light', 'data-ch-theme'],
  };
  observer.observe(document.body, options);
  observer.observe(document.documentElement, options);
  const dark = matchMedia('(prefers-color-scheme: dark)');
  dark.addEventListener('change', listener);
  return () => {
    observer.disconnect();
    dark.removeEventListener('change', listener);
  };
}

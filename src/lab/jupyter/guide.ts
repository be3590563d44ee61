import type { Commands, HelpMenu } from './host.js';

const OPEN = 'cocked-hat:guide';

/** The pages lie beside the scripts of this extension (src/lab/build.mjs), so they need no network and no server of their own. */
const INDEX = new URL('guide/index.html', import.meta.url).href;

/** The guide at the top of JupyterLab's Help menu, for the reader whose folder holds nothing of ours. */
export function offerGuide(commands: Commands, menu: HelpMenu | null): void {
  commands.addCommand(OPEN, {
    label: 'Guide to Cocked Hat',
    caption: 'How to write down a sight, keep a log and read the views; in a tab of its own',
    execute: () => window.open(INDEX, '_blank', 'noopener'),
  });
  menu?.helpMenu.addGroup([{ command: OPEN }], 0);
}

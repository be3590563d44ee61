import { labFrom, type RenderMimeRegistry, type Shared, type ThemeManager } from './host.js';
import type { Commands, HelpMenu, NotebookTracker, TranslatorService } from './host.js';
import { makeFactories } from './renderers.js';
import { offerGuide } from './guide.js';
import { breakLinesBetweenWords } from './own-notebooks.js';
import { registerRedNight } from './red-night.js';

/** JupyterLab's plugins of this extension. */
export async function makePlugins(shared: Shared): Promise<unknown[]> {
  const lab = await labFrom(shared);
  const { rendermime, translator, notebooks, themes, menus } = lab.tokens;
  return [
    {
      id: 'cocked-hat:views',
      description: 'Shows workings, charts, residuals and plotly figures in notebook outputs.',
      autoStart: true,
      requires: [rendermime],
      optional: [translator, notebooks],
      activate: (
        _app: unknown,
        registry: RenderMimeRegistry,
        translation: TranslatorService | null,
        tracker: NotebookTracker | null,
      ) => {
        for (const factory of makeFactories(lab, translation, tracker))
          registry.addFactory(factory, 0);
        if (tracker) breakLinesBetweenWords(tracker);
      },
    },
    {
      id: 'cocked-hat:red-night',
      description: 'A theme for the chart table at night: red on black.',
      autoStart: true,
      requires: [themes],
      activate: (_app: unknown, manager: ThemeManager) => registerRedNight(manager),
    },
    {
      id: 'cocked-hat:guide',
      description: 'Offers the guide in the Help menu.',
      autoStart: true,
      optional: menus ? [menus] : [],
      activate: ({ commands }: { commands: Commands }, menu: HelpMenu | null = null) =>
        offerGuide(commands, menu),
    },
  ];
}

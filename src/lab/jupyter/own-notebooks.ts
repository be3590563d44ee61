import type { NotebookPanel, NotebookTracker } from './host.js';

const KERNEL = 'cocked-hat';
const OWN = 'cocked-hat-notebook';

/** JupyterLab breaks printed lines anywhere; sentences of a working are read by words. */
const STYLE = `.${OWN} .jp-OutputArea-output pre { word-break: normal; overflow-wrap: anywhere; }`;

/** Lets printed lines of notebooks of this kernel, and of no other, break between words. */
export function breakLinesBetweenWords(tracker: NotebookTracker): void {
  const style = document.createElement('style');
  style.textContent = STYLE;
  document.head.append(style);
  const watch = (panel: NotebookPanel) => {
    const mark = () => panel.node.classList.toggle(OWN, kernelOf(panel) === KERNEL);
    panel.sessionContext.kernelChanged.connect(mark);
    mark();
  };
  tracker.forEach(watch);
  tracker.widgetAdded.connect((_, panel) => watch(panel));
}

/** The kernel that runs, or the one the notebook asks for. */
const kernelOf = ({ sessionContext }: NotebookPanel): string | undefined =>
  sessionContext.session?.kernel?.name ?? sessionContext.kernelPreference.name;

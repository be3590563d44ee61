import { amendmentNames, shownVariable } from '../../log/amend/read-code.js';
import type { CodeCell } from '../render/index.js';
import type { NotebookTracker } from './host.js';

/** The cell below an output into which its view writes code, once the output is in the page. */
export function codeCellBelow(
  node: HTMLElement,
  tracker: NotebookTracker | null,
): CodeCell | undefined {
  const panel = tracker?.find((p) => p.node.contains(node));
  if (!panel?.content || !panel.context) return undefined;
  const { content, context } = panel;
  const find = (names: { log: string; as: string }) =>
    content.widgets
      .map((cell) => cell.model.sharedModel)
      .find((cell) => {
        const found = amendmentNames(cell.getSource());
        return found?.log === names.log && found.as === names.as;
      });
  return {
    place: context.path,
    variable(name) {
      const own = content.widgets.find((widget) => widget.node.contains(node));
      return own ? shownVariable(own.model.sharedModel.getSource(), name) : name;
    },
    find: (names) => find(names)?.getSource(),
    write(names, code) {
      const cell = find(names);
      if (cell) {
        if (cell.getSource() !== code) cell.setSource(code);
        return true;
      }
      const at = content.widgets.findIndex((widget) => widget.node.contains(node));
      const notebook = content.model?.sharedModel;
      if (at < 0 || !notebook) return false;
      notebook.insertCell(at + 1, { cell_type: 'code', source: code, metadata: {} });
      return true;
    },
  };
}

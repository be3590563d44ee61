import fs from 'node:fs';
import path from 'node:path';
import { linesOf, textOf, type Cell, type Notebook } from '../../kernel/runner/notebook.js';
import { PublishError } from '../publish-error.js';

const TYPES: Readonly<Record<string, string>> = {
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.jpeg': 'image/jpeg',
  '.gif': 'image/gif',
  '.webp': 'image/webp',
  '.svg': 'image/svg+xml',
};
const MOST_BYTES = 5_000_000;
/** A picture of Markdown: before its address, the address, behind it. */
const PICTURE = /(!\[[^\]]*\]\(\s*)(?:<([^>]+)>|([^)\s]+))((?:\s+"[^"]*")?\s*\))/g;
const ELSEWHERE = /^(?:[a-z][a-z0-9+.-]+:|#|\/\/)/i;

/**
 * A notebook whose pictures lie in it: what a text cell shows from a file beside the notebook becomes an attachment of the
 * cell, as when it is pasted there. An edition is one file, and has no others beside it.
 * @throws PublishError naming a picture that is missing, too large or of another kind
 */
export function withPictures(notebook: Notebook, folder: string, file: string): Notebook {
  const cells = notebook.cells.map((cell, i) =>
    cell.cell_type === 'markdown' ? withAttachments(cell, folder, `${file}: cell ${i + 1}`) : cell,
  );
  return { ...notebook, cells };
}

function withAttachments(cell: Cell, folder: string, where: string): Cell {
  const attachments = { ...cell.attachments };
  const text = textOf(cell.source).replace(
    PICTURE,
    (
      all,
      before: string,
      inBrackets: string | undefined,
      bare: string | undefined,
      behind: string,
    ) => {
      const address = inBrackets ?? bare ?? '';
      if (ELSEWHERE.test(address)) return all;
      const name = address.replaceAll(/[^\w.-]+/g, '-');
      attachments[name] = pictureAt(path.resolve(folder, decoded(address)), address, where);
      return `${before}attachment:${name}${behind}`;
    },
  );
  if (Object.keys(attachments).length === 0) return cell;
  return { ...cell, source: linesOf(text), attachments };
}

function pictureAt(place: string, address: string, where: string): Record<string, string> {
  const refuse = (why: string, remedy: string): never => {
    throw new PublishError(`${where} shows the picture ${address}, ${why}`, remedy);
  };
  const type = TYPES[path.extname(place).toLowerCase()];
  if (!type)
    return refuse(
      'which is of no kind that pages show',
      `save it as one of ${Object.keys(TYPES).join(', ')}`,
    );
  const stat = fs.statSync(place, { throwIfNoEntry: false });
  if (!stat?.isFile())
    return refuse(
      `and there is no such file (looked for ${place})`,
      'put the picture there, drag it into the cell in JupyterLab, or take it out of the text',
    );
  if (stat.size > MOST_BYTES)
    return refuse(
      `of ${(stat.size / 1e6).toFixed(1)} MB`,
      `make it smaller: at most ${MOST_BYTES / 1e6} MB, since every student fetches it`,
    );
  return { [type]: fs.readFileSync(place).toString('base64') };
}

function decoded(address: string): string {
  try {
    return decodeURIComponent(address);
  } catch {
    return address;
  }
}

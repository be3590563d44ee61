/** The reference of the library, made by typedoc from the docstrings of everything that src/index.ts exports. */
import fs from 'node:fs';
import path from 'node:path';
import { Application, CommentTag, Converter, LogLevel, Logger } from 'typedoc';
import { GUIDE } from './contents.mjs';

/** Headings of the reference by the folder of src/ that a name comes from. */
const HEADINGS = [
  ['core/units', 'Quantities and time'],
  ['core/working', 'Workings'],
  ['core/sky', 'The sky'],
  ['core/sextant', 'Sight to observed altitude'],
  ['core/line', 'Position lines'],
  ['core/fix', 'Fixes and slips'],
  ['core/methods', 'Methods'],
  ['core/plan', 'Planning'],
  ['log', 'The sight log'],
  ['views', 'Views'],
  ['exercises', 'Exercises'],
];

class Complaints extends Logger {
  lines = [];
  log(message, level) {
    if (level >= LogLevel.Warn) this.lines.push(message);
  }
}

/** Puts every exported name under the heading of its folder. */
function sortIntoHeadings(context, root) {
  for (const name of context.project.children ?? []) {
    const file = context.project.getSymbolIdFromReflection(name)?.fileName ?? '';
    const folder = path.relative(path.join(root, 'src'), file).split(path.sep).join('/');
    const heading = HEADINGS.find(([start]) => folder.startsWith(start))?.[1];
    const documented = [name, ...(name.signatures ?? [])].filter(({ comment }) => comment);
    for (const { comment } of heading ? documented : [])
      comment.blockTags.push(new CommentTag('@category', [{ kind: 'text', text: heading }]));
  }
}

/** Roles of colours.css by typedoc's name for them. */
const TYPEDOC_NAMES = {
  paper: 'background',
  panel: 'background-secondary',
  ink: 'text',
  faint: 'text-aside',
  rule: 'accent',
  accent: 'link',
};

/** The reference in the colours of the guide, from the sheet that holds them. */
export function referenceCss(colours) {
  const [light, dark] = colours.split('@media (prefers-color-scheme: dark)');
  const lines = [
    ['light', light],
    ['dark', dark],
  ].flatMap(([scheme, rules]) =>
    Object.entries(TYPEDOC_NAMES).map(([role, name]) => {
      const colour = new RegExp(`--${role}: ([^;]+);`).exec(rules ?? '')?.[1];
      if (!colour) throw new Error(`colours.css has no ${role} for ${scheme}`);
      return `  --${scheme}-color-${name}: ${colour};`;
    }),
  );
  return `:root {\n${lines.join('\n')}\n}\n`;
}

function writeReferenceCss(root) {
  const colours = fs.readFileSync(path.join(root, 'src/publish/css/colours.css'), 'utf8');
  const file = path.join(root, '.cache', 'reference.css');
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, referenceCss(colours));
  return file;
}

/**
 * Reads the library and judges its docstrings.
 * @param {string} root the checkout
 * @returns what typedoc read, and what it complains of: nothing when every public name is documented
 */
export async function readLibrary(root) {
  const app = await Application.bootstrap({
    options: path.join(GUIDE, 'typedoc.json'),
    basePath: root,
    tsconfig: path.join(root, 'tsconfig.json'),
    entryPoints: [path.join(root, 'src', 'index.ts')],
    customCss: writeReferenceCss(root),
    readme: path.join(GUIDE, 'reference-start.txt'),
  });
  const complaints = new Complaints();
  app.logger = complaints;
  app.converter.on(Converter.EVENT_RESOLVE_BEGIN, (context) => sortIntoHeadings(context, root));
  const project = await app.convert();
  if (!project) throw new Error(`typedoc cannot read the library: ${complaints.lines.join('; ')}`);
  app.validate(project);
  return { app, project, complaints: complaints.lines };
}

/**
 * @param {{ root: string, dist: string }} places dist/guide/api is replaced as a whole
 * @returns {Promise<string[]>} what typedoc complains of
 */
export async function buildReference({ root, dist }) {
  const { app, project, complaints } = await readLibrary(root);
  const out = path.join(dist, 'guide', 'api');
  fs.rmSync(out, { recursive: true, force: true });
  await app.generateDocs(project, out);
  return complaints;
}

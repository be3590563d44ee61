import type { Completion, Completions, Inspection, TypeEngine } from '../../cells/index.js';
import { toCodePoints, toUnits } from './code-points.js';

/** Most matches that a completion answers with. */
const MOST_MATCHES = 500;

/** The answer to `complete_request`; positions count code points. */
export async function completeReply(types: TypeEngine, code: string, cursor: number) {
  const at = toUnits(code, cursor);
  const found = await types.complete(code, at).catch(() => null);
  const { start, end, items }: Completions = found ?? { start: 0, end: 0, items: [] };
  const shown = preferCase(items, code.slice(start, at)).slice(0, MOST_MATCHES);
  const span = found
    ? { start: toCodePoints(code, start), end: toCodePoints(code, end) }
    : { start: cursor, end: cursor };
  return {
    status: 'ok',
    matches: shown.map((item) => item.name),
    cursor_start: span.start,
    cursor_end: span.end,
    metadata: {
      _jupyter_types_experimental: shown.map(({ name, kind, signature }) => ({
        ...span,
        text: name,
        type: kind,
        ...(signature ? { signature } : {}),
      })),
    },
  };
}

/** Names that begin just as typed; if there are none, those that differ in case. */
function preferCase(items: readonly Completion[], typed: string): readonly Completion[] {
  const exact = items.filter(({ name }) => name.startsWith(typed));
  return exact.length > 0 ? exact : items;
}

/** The answer to `inspect_request`: signature and documentation, as text and as Markdown. */
export async function inspectReply(types: TypeEngine, code: string, cursor: number) {
  const at = toUnits(code, cursor);
  const info =
    (await inspectAt(types, code, at)) ?? (at > 0 ? await inspectAt(types, code, at - 1) : null);
  if (!info) return { status: 'ok', found: false, data: {}, metadata: {} };
  const data = { 'text/plain': plain(info), 'text/markdown': markdown(info) };
  return { status: 'ok', found: true, data, metadata: {} };
}

const inspectAt = (types: TypeEngine, code: string, at: number): Promise<Inspection | null> =>
  types.inspect(code, at).catch(() => null);

function plain({ signature, documentation, tags }: Inspection): string {
  const lines = tags.map(({ name, text }) => `@${name} ${text}`.trimEnd());
  return [signature, documentation, lines.join('\n')].filter(Boolean).join('\n\n');
}

function markdown({ signature, documentation, tags }: Inspection): string {
  const lines = tags.map(({ name, text }) =>
    `*@${name}* ${text.replace(/^(\S+)/, '`$1`')}`.trimEnd(),
  );
  const code = `\`\`\`typescript\n${signature}\n\`\`\``;
  return [code, documentation, lines.join('  \n')].filter(Boolean).join('\n\n');
}

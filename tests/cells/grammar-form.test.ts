/** What a person is told whose cell is not grammatical, the complaints being TypeScript's own. */
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { stripTypes } from '../../src/cells/compile/strip-types.js';
import type { CellSyntaxError } from '../../src/cells/errors/cell-syntax-error.js';
import { syntaxForm } from '../../src/cells/errors/syntax-form.js';
import { describeDiagnostics } from '../../src/cells/types/describe-diagnostics.js';

/** The cell's own complaints: of its grammar, and of what the judge of types counts to it. */
function complaints(source: string): readonly ts.Diagnostic[] {
  const file = ts.createSourceFile('cell.ts', source, ts.ScriptTarget.ESNext);
  const program = ts.createProgram({
    rootNames: ['cell.ts'],
    options: { noLib: true, noResolve: true, types: [], target: ts.ScriptTarget.ESNext },
    host: {
      ...ts.createCompilerHost({}),
      getSourceFile: (name) => (name === 'cell.ts' ? file : undefined),
      fileExists: (name) => name === 'cell.ts',
    },
  });
  return [...program.getSyntacticDiagnostics(file), ...program.getSemanticDiagnostics(file)];
}

function told(source: string): string[] {
  const found = complaints(source).map(({ code, messageText, start = 0, length = 1 }) => {
    const lines = source.slice(0, start).split('\n');
    const message = ts.flattenDiagnosticMessageText(messageText, '\n');
    return { code, message, line: lines.length, column: lines.at(-1)!.length + 1, length };
  });
  return describeDiagnostics(found, 'In[1]', source).traceback.map((line) =>
    line.replace(/\u001b\[\d+m/g, ''),
  );
}

describe('the right form where the grammar is wrong', () => {
  it.each([
    [
      'sight({ reading: ‘34 17.6’ })',
      '‘ is a printer’s quotation mark; a cell takes the straight ones, \' or ".',
    ],
    ['sight({ reading: “34 17.6” })', '“ is a printer’s quotation mark'],
    [
      'sight({ reading: 34°17.6′ })',
      "° belongs in text: write the whole figure between quotation marks: '34°17.6′'.",
    ],
    [
      "sight({ reading: '34°17.6'', body: 'Sun' })",
      "The first ' after the figure already ends the text.",
    ],
    ["sight({ remarks: 'A's sight' })", "The ' before s ends the text"],
    ["sight({ body: 'Sun })", 'A quotation mark is opened here and not closed'],
    ['sight({ reading: 30 34.2, body: name })', 'A figure of several parts is text'],
    ['sight({ time: 2027-07-03 13:40:05 })', 'A figure of several parts is text'],
    ['position(22 57 S, 14 30 E)', 'A figure of several parts is text'],
    ["sight({ body: 'Sun' limb: 'lower' })", 'A comma is missing before limb.'],
    ["sight({\n  body: 'Sun'\n  limb: 'lower',\n})", 'A comma is missing before limb.'],
    ["position('22 57 S' '14 30 E')", "A comma is missing before '14 30 E'."],
    [
      "sight({ body: 'Sun'; limb: 'lower' })",
      'Between the fields stands a comma, not a semicolon.',
    ],
    ["sight({ body: 'Sun', limb = 'lower' })", 'After the name of a field stands a colon: limb: …'],
    ["sight({ body 'Sun' })", 'After the name of a field stands a colon: body: …'],
    [
      "sight(body: 'Sun', limb: 'lower')",
      "stands in braces inside the brackets: sight({ body: 'Sun', … }).",
    ],
    ["sight({ body: 'Sun' }", 'A closing ) is missing'],
    ["sight({ body: 'Sun' )", 'A } is missing before this ).'],
    ["sight({ body: 'Sun' }))", 'This ) closes nothing: it is one too many.'],
    ['observedAltitude forenoon', 'what it takes stands in brackets: observedAltitude(forenoon).'],
    ['observed altitude(forenoon)', 'Two words stand side by side.'],
    ['const first sight = 3', 'A name is one word of letters and figures'],
    ['const first-sight = 3', 'A name is one word of letters and figures'],
    ['const 1st = 3', 'A name is one word of letters and figures'],
    ['Import { dip } from "cocked-hat"', 'Capital and small letters are not the same here.'],
    ['import { dip } from cocked-hat', 'The name of the library stands between quotation marks'],
    ['observedAltitude?', 'press Shift+Tab'],
    ['?', 'press Shift+Tab'],
  ])('%s', (source, form) => {
    const [complaint, said] = told(source);
    expect(complaint).toMatch(/^SyntaxError: /);
    expect(said).toContain(form);
  });

  it('is silent where it knows nothing better than TypeScript', () => {
    expect(told('const a = ;')[1]).toMatch(/^In\[1\]:1:11 TS/);
  });

  it('complains once of a line, and of each line that is wrong', () => {
    const places = told("sight({\n  body: ‘Sun’,\n  reading: 30 34.2,\n  limb: 'lower',\n})")
      .filter((line) => line.startsWith('In[1]'))
      .map((line) => line.split(' ')[0]);
    expect(places).toEqual(['In[1]:2:9', 'In[1]:3:15']);
  });

  it('leaves out what the judge of types adds to a complaint about grammar', () => {
    const message = "',' expected.\n  Argument of type '{ a: any }' is not assignable.";
    const made = describeDiagnostics(
      [{ code: 1005, message, line: 1, column: 7, length: 1 }],
      'In[1]',
      'f({ a b })',
    );
    expect(made.traceback.join('\n')).not.toContain('Argument of type');
  });
});

describe('the same on a page, where only the compiler of cells complains', () => {
  const form = (source: string): string | undefined => {
    try {
      stripTypes(source);
    } catch (error) {
      return syntaxForm(error as CellSyntaxError, source);
    }
    throw new Error('nothing was wrong');
  };
  it.each([
    ["const answer = {\n  read: '63°51.5'',\n};", 'already ends the text'],
    ["const answer = {\n  wrong: 'Al Na'ir',\n};", 'stands between the other marks'],
    ["const student = 'O'Brien';", 'stands between the other marks'],
    ['const answer = {\n  dip: −2.8′,\n};', '′ belongs in text'],
    ['const answer = {\n  dip: ‘-2.8’,\n};', '‘ is a printer’s quotation mark'],
    ["const answer = {\n  dip: '-2.8,\n};", 'opened here and not closed'],
    ["const answer = {\n  dip: '-2.8'\n  observed: ''\n};", 'A comma is missing before observed'],
    ["const answer = {\n  dip: '-2.8';\n};", 'a comma, not a semicolon'],
    ["const answer = {\n  dip: '-2.8',\n", 'A closing } is missing'],
  ])('%j', (source, said) => {
    expect(form(source)).toContain(said);
  });
});

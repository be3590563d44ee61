/** What a person is told who writes a quantity as TypeScript does not take it. */
import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import * as library from '../../src/index.js';
import { codeFrame } from '../../src/cells/errors/code-frame.js';
import { describeDiagnostics } from '../../src/cells/types/describe-diagnostics.js';
import { rightForm, WRITTEN } from '../../src/cells/types/right-form.js';

const form = (message: string) => rightForm({ message }, Object.keys(library));

describe('the right form beside a complaint of TypeScript', () => {
  it.each([
    [`Type '"2.6"' is not assignable to type 'LengthText | Length'.`, "'2.6 m'"],
    [`Type 'number' is not assignable to type 'LengthText | Length | undefined'.`, "'2.6 m'"],
    [`Type '"20C"' is not assignable to type 'TemperatureText | Temperature'.`, "'18 °C'"],
    [`Type 'string' is not assignable to type 'Position'.`, 'position('],
    [`Type 'number' is not assignable to type 'OneOrMore<string | Angle>'.`, "'41°18.6′'"],
    [`Argument of type 'string' is not assignable to parameter of type 'Angle'.`, "angle('1.4′')"],
    [`Type '"low"' is not assignable to type 'Limb'.`, "'lower'"],
    [`Operator '+' cannot be applied to types 'Angle' and 'number'.`, 'a.plus(b)'],
    [
      `Argument of type 'Promise<string>' is not assignable to parameter of type 'string'.`,
      'await',
    ],
    [`Type 'number' is not assignable to type 'string | Angle | Working<Angle>'.`, 'off the arc'],
    [`Cannot find name 'observedAltitude'.`, "import { observedAltitude } from 'cocked-hat'"],
    [
      `Argument of type '{ dr: string; }' is not assignable to parameter of type 'FixOptions'.\n  Type 'string' is not assignable to type 'Position'.`,
      'position(',
    ],
    [`Cannot find name 'observedAltitud'.`, 'Is observedAltitude meant?'],
    [`Cannot find name 'nowhere'.`, 'No cell run so far makes nowhere: run the one that does'],
    [
      `Argument of type '{ limb: "lower"; }' is not assignable to parameter of type 'SightFields'.\n  Property 'body' is missing in type '{ limb: "lower"; }' but required in type 'SightFields'.`,
      'What is missing: body.',
    ],
    [
      `Argument of type '{ eyeheight: string; }' is not assignable to parameter of type 'SightFields'.\n  Object literal may only specify known properties, but 'eyeheight' does not exist in type 'SightFields'. Did you mean to write 'eyeHeight'?`,
      'There is no eyeheight here; eyeHeight is meant.',
    ],
  ])('%s', (message, expected) => expect(form(message)).toContain(expected));

  it('sees from its place what an unknown name was meant for', () => {
    const names = Object.keys(library);
    const at = (name: string, before: string, after: string) =>
      rightForm({ message: `Cannot find name '${name}'.` }, names, { before, after });
    expect(at('Sun', 'sight({ body: ', ', limb')).toContain("between quotation marks: 'Sun'");
    expect(at('lower', '  limb: ', ',')).toContain("between quotation marks: 'lower'");
    expect(at('forenoon', 'reduce(', ')')).toMatch(/^No cell run so far makes forenoon/);
    expect(at('dr', '', ' = position(…)')).toBe('A new name is made by const: const dr = …');
    expect(at('Sight', '', '({ body')).toContain('Is sight meant?');
    expect(at('SightLog', 'const log = ', '.fromCsv')).toContain('import { SightLog }');
    expect(at('help', '', '()')).toContain('Shift+Tab');
  });

  it('names the library and its braces to who imports another way', () => {
    expect(form("Cannot find module 'cockedhat' or its corresponding type declarations.")).toBe(
      "The library is written 'cocked-hat', with a hyphen.",
    );
    expect(form("Cannot find module 'lodash' or its types.")).toBeUndefined();
    expect(
      form(
        `This expression is not callable.\n  Type 'typeof import("/x/cocked-hat/index")' has no call signatures.`,
      ),
    ).toContain('import { observedAltitude }');
  });

  it('is silent where TypeScript says enough', () => {
    expect(form("Type 'string' is not assignable to type 'number'.")).toBeUndefined();
    expect(form("Property 'push' does not exist on type 'Round'.")).toBeUndefined();
  });

  it('says once that a name is not known, however often it stands in the cell', () => {
    const unknown = (name: string, column: number) =>
      ({ code: 2304, message: `Cannot find name '${name}'.`, line: 1, column, length: 2 }) as const;
    const said = describeDiagnostics(
      [unknown('pm', 1), unknown('am', 5), unknown('pm', 9)],
      'In[1]',
      'pm, am, pm',
    ).traceback.join('\n');
    expect(said.match(/Cannot find name 'pm'/g)).toHaveLength(1);
    expect(said).toContain("Cannot find name 'am'");
  });

  it('names types that the declarations of the library have', () => {
    const folder = path.join(import.meta.dirname, '../../src');
    const sources = fs
      .readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((file) => /^(?:core|log|views).*\.ts$/.test(file))
      .map((file) => fs.readFileSync(path.join(folder, file), 'utf8'))
      .join('\n');
    for (const name of Object.keys(WRITTEN).flatMap((type) => type.split(' | ')))
      if (name !== 'string')
        expect(sources).toMatch(
          new RegExp(`export (?:type|class|interface) ${name.replace(/<.*/, '')}\\b`),
        );
  });

  it('is a form that the library takes', () => {
    const common = { body: 'Sun', reading: '41°18.6′', time: '2027-05-11 09:42:17 UTC' } as const;
    const quoted = (text: string) => [...text.matchAll(/'([^']+)'/g)].map((match) => match[1]!);
    const fields = {
      SpeedText: 'speed',
      TemperatureText: 'temperature',
      PressureText: 'pressure',
      Limb: 'limb',
    } as const;
    for (const [type, field] of Object.entries(fields))
      for (const text of quoted(WRITTEN[type]!))
        expect(library.sight({ ...common, [field]: text } as never).toString()).toContain('Sun');
    for (const text of quoted(WRITTEN['LengthText']!))
      expect(library.length(text).metres).toBeGreaterThan(0);
    for (const body of quoted(WRITTEN['BodyName']!))
      expect(library.sight({ ...common, body } as never).body).toBe(body);
    expect(quoted(WRITTEN['Position']!).map((text) => library.position(text).toString())).toEqual([
      '19°31.0′ S, 001°12.0′ W',
    ]);
    expect(library.angle(quoted(WRITTEN['Angle']!)[0]!).arcminutes).toBeCloseTo(1.4, 12);
    expect(library.length(quoted(WRITTEN['Length']!)[0]!).metres).toBe(2.6);
    expect(library.speed(quoted(WRITTEN['Speed']!)[0]!).knots).toBe(5.2);
    expect(library.Instant.utc(quoted(WRITTEN['Instant']!)[0]!).toIso()).toContain('09:42:17');
  });
});

describe('the report of a cell with wrong types', () => {
  const complaint = { line: 1, length: 3, code: 2322 };
  const plain = (lines: readonly string[]) =>
    lines.map((line) => line.replace(/\u001b\[\d+m/g, ''));

  it('says once what is wrong, then how to write it, then where', () => {
    const message = "Type 'string' is not assignable to type 'Position'.";
    const source = "const a = sight({ dr: '1° N' })";
    const made = describeDiagnostics([{ ...complaint, message, column: 19 }], 'In[3]', source);
    expect(made.evalue).toBe(`${message} (In[3]:1:19)\n${WRITTEN['Position']}`);
    expect(plain(made.traceback)).toEqual([
      `TypeCheckError: ${message}`,
      WRITTEN['Position'],
      'In[3]:1:19 TS2322',
      `--> 1 | ${source}`,
      '      |                   ^^^',
    ]);
  });

  it('speaks of the grammar alone where it is wrong', () => {
    const grammar = { line: 1, column: 4, length: 1, code: 1005, message: "';' expected." };
    const type = { ...complaint, column: 1, message: "Cannot find name 'dipreduce'." };
    const made = describeDiagnostics([type, grammar], 'In[4]', 'dip reduce');
    expect(made.ename).toBe('SyntaxError');
    expect(plain(made.traceback)[0]).toBe("SyntaxError: ';' expected.");
    expect(made.traceback.join('')).not.toContain('dipreduce');
  });

  it('marks the place in a line too long to show', () => {
    const line = `${'a'.repeat(150)}XYZ${'b'.repeat(100)}`;
    const [shown, marks] = plain(codeFrame(line, { line: 1, column: 151 }, 3));
    expect(shown!.length).toBeLessThan(100);
    expect(shown).toMatch(/^--> 1 \| …a+XYZb+…$/);
    expect(marks!.indexOf('^^^')).toBe(shown!.indexOf('XYZ'));
    const atEnd = plain(codeFrame(line, { line: 1, column: 253 }, 1));
    expect(atEnd[1]!.indexOf('^')).toBe(atEnd[0]!.length - 1);
  });
});

import { h } from '../../lab/render/dom.js';
import type { Services } from '../../lab/render/index.js';
import { AnswersFileError, readAnswers, type AnswersFile } from './answers-file.js';
import { CodeCell } from './cell.js';
import type { PageData } from './page-data.js';
import { Store } from './store.js';
import { Toolbar } from './toolbar.js';
import { WorkerLink } from './worker-link.js';

/** Brings a published page to life. @param script the text of this script, for the worker */
export function startPage(script: string): void {
  const data = JSON.parse(textOf('notebook')) as PageData;
  const formulas = JSON.parse(textOf('formulas') || '{}') as Record<string, string>;
  const store = new Store(data.edition, data.cells);
  const link = new WorkerLink(script, bytesOf(textOf('ephemeris')), ephemerisName());
  const services = servicesWith(formulas);
  const cells: CodeCell[] = [];
  const toolbar = new Toolbar({
    runAll: () => inTurn(runAll),
    stop: () => {
      stops += 1;
      link.stop();
    },
    show: (original) => {
      for (const cell of cells) cell.show(original);
      tell();
    },
    reset: () => {
      store.reset();
      for (const cell of cells) cell.show(true);
      tell();
    },
    save: () => {
      const name = fileName(data, store);
      download(name, store.text);
      toolbar.say(
        `Saved as ${name} where this browser puts downloads. This is the file to hand in.`,
      );
    },
    open: (text) => openAnswers(text),
    bring: () => {
      const earlier = store.earlier();
      if (earlier) take(earlier);
    },
  });
  const tell = () => toolbar.tell(store.size, store.lasting);

  /** One request after the other; a stop drops those that wait. */
  let turn = Promise.resolve();
  let stops = 0;
  const inTurn = (work: () => Promise<void>): void => {
    const asked = stops;
    turn = turn.then(() => (asked === stops ? work() : undefined));
  };
  const runAll = async (): Promise<void> => {
    for (const cell of cells) if (!(await cell.run())) break;
  };
  /** From the first cell above that is new or changed: a reader presses Run where the answer is wanted. */
  const runOne = async (cell: CodeCell): Promise<void> => {
    const asked = stops;
    const upTo = cells.slice(0, cells.indexOf(cell));
    const stale = upTo.findIndex((above) => !above.isFresh);
    for (const each of [...(stale < 0 ? [] : upTo.slice(stale)), cell]) {
      if (asked !== stops) return;
      if ((await each.run()) || each.isMeantToFail || each === cell) continue;
      if (asked === stops) cell.hold();
      return;
    }
    // Numbers are drawn from the name: what is given below is that of the new one.
    if (cell.cell.role !== 'name') return;
    const below = cells.slice(upTo.length + 1);
    const own = below.findIndex(({ cell: { role } }) => role === 'answer' || role === 'check');
    const given = own < 0 ? below : below.slice(0, own);
    for (const later of below.slice(given.length)) later.forget();
    for (const each of given) {
      if (asked !== stops) return;
      await each.run();
    }
  };
  const openAnswers = (text: string): void => {
    try {
      const answers = readAnswers(text);
      if (answers.notebook !== data.edition.notebook)
        throw new AnswersFileError(
          `These answers belong to "${answers.notebook}", and this page is "${data.edition.notebook}".`,
        );
      take(answers);
    } catch (error) {
      if (!(error instanceof AnswersFileError)) throw error;
      toolbar.say(error.message);
    }
  };
  const take = (answers: AnswersFile): void => {
    const { corrected } = store.replace(answers);
    for (const cell of cells) cell.show(false);
    tell();
    const kept =
      corrected === 0
        ? ''
        : ` ${corrected} changed ${corrected === 1 ? 'cell' : 'cells'} outside your answers stand as in this edition, which has corrected them.`;
    toolbar.say(
      answers.edition === data.edition.version
        ? ''
        : `These answers were given to edition ${answers.edition}; this page is edition ${data.edition.version}. Run all cells again.${kept}`,
    );
  };
  const run = (cell: CodeCell, goOn: boolean): void => {
    if (goOn) cells.find((next, i) => i > cells.indexOf(cell) && !next.cell.folded)?.focus();
    inTurn(() => runOne(cell));
  };
  for (const cell of data.cells) {
    const section = document.getElementById(`cell-${cell.id}`);
    if (cell.kind === 'code' && section)
      cells.push(
        new CodeCell(section, cell, store, link, services, cells.length + 1, {
          change: tell,
          run,
        }),
      );
  }
  // The same page in another tab: what is written there shows here, and neither overwrites the other.
  window.addEventListener('storage', () => {
    if (!store.follow()) return;
    for (const cell of cells) cell.show(toolbar.original);
    tell();
  });
  document.querySelector('header')?.append(toolbar.element);
  tell();
  if (store.earlier()) toolbar.offer();
  link.start();
  document.documentElement.dataset['ready'] = 'yes';
}

const textOf = (id: string): string => document.getElementById(id)?.textContent ?? '';
const ephemerisName = (): string => document.getElementById('ephemeris')?.dataset['name'] ?? '';

function bytesOf(base64: string): Uint8Array | null {
  const text = base64.trim();
  return text === '' ? null : Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
}

/** Formulas were set at publishing; one that was not shows as it is written. Plots stay pictures. */
const servicesWith = (formulas: Readonly<Record<string, string>>): Services => ({
  t: (text) => text,
  plotly: () => Promise.reject(new Error('this page shows plots as still pictures')),
  formulas: () =>
    Promise.resolve({
      typeset(host, latex) {
        const math = Object.hasOwn(formulas, latex) ? formulas[latex] : undefined;
        if (math === undefined) host.textContent = latex;
        else
          host.replaceChildren(
            ...new DOMParser().parseFromString(math, 'text/html').body.childNodes,
          );
      },
    }),
});

/** The student's name makes files from a whole class different. */
function fileName({ edition, cells }: PageData, store: Store): string {
  const cell = cells.find(({ role }) => role === 'name');
  const text = (cell && (store.get(cell.id) ?? cell.source)) ?? '';
  const name = /(['"`])(.*?)\1/.exec(text)?.[2] ?? '';
  const parts = [edition.notebook, 'answers', ...(name.match(/[\p{L}\p{N}]+/gu) ?? [])];
  return `${parts.join('-').slice(0, 120)}.json`;
}

function download(name: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  const link = h('a', { href: url, download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 1000);
}

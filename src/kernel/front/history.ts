interface Entry {
  readonly line: number;
  readonly code: string;
}

/** What `history_request` asks for. */
export interface HistoryRequest {
  readonly hist_access_type?: 'range' | 'tail' | 'search';
  readonly n?: number;
  readonly start?: number;
  readonly stop?: number;
  readonly pattern?: string;
  readonly unique?: boolean;
  readonly output?: boolean;
}

/** The code that this session has run. */
export class History {
  readonly #entries: Entry[] = [];

  add(line: number, code: string): void {
    this.#entries.push({ line, code });
  }

  find(request: HistoryRequest): unknown[] {
    return this.#select(request).map(({ line, code }) => [
      1,
      line,
      request.output ? [code, null] : code,
    ]);
  }

  #select({ hist_access_type: type, n, start = 0, stop, pattern = '*', unique }: HistoryRequest) {
    if (type === 'range')
      return this.#entries.filter((e) => e.line >= start && e.line < (stop ?? Infinity));
    if (type !== 'search') return n ? this.#entries.slice(-n) : this.#entries;
    const matches = this.#entries.filter((e) => globPattern(pattern).test(e.code));
    const chosen = unique ? [...new Map(matches.map((e) => [e.code, e])).values()] : matches;
    return n ? chosen.slice(-n) : chosen;
  }
}

/** `*` stands for any text and `?` for one character, as in the protocol's search. */
function globPattern(glob: string): RegExp {
  const escaped = glob.replace(/[.+^${}()|[\]\\]/g, '\\$&');
  return new RegExp(`^${escaped.replaceAll('*', '.*').replaceAll('?', '.')}$`, 's');
}

import type { Bundle, Outcome } from '../../cells/index.js';
import type { CellsLink } from './cells-link.js';
import type { History } from './history.js';
import type { Publisher } from './publisher.js';
import type { Message } from './wire.js';

interface ExecuteRequest {
  readonly code: string;
  readonly silent?: boolean;
  readonly store_history?: boolean;
  readonly user_expressions?: Record<string, string>;
  readonly stop_on_error?: boolean;
}

/** What the answer to an execute request says, and whether the requests behind it are dropped. */
export interface Executed {
  readonly reply: object;
  readonly stopsQueue: boolean;
}

/** Executes cells: numbers them, runs them, publishes their results and errors. */
export class Executor {
  #count = 0;
  #unnumbered = 0;

  constructor(
    private readonly link: CellsLink,
    private readonly publisher: Publisher,
    private readonly history: History,
  ) {}

  async execute({ header, content }: Message): Promise<Executed> {
    const request = content as unknown as ExecuteRequest;
    const { code, silent = false, store_history: stored = true } = request;
    const numbered = !silent && stored;
    if (numbered) this.history.add(++this.#count, code);
    const execution_count = this.#count;
    if (!silent) this.publisher.send('execute_input', { code, execution_count }, header);
    const label = numbered ? `In[${execution_count}]` : `In[*${++this.#unnumbered}]`;
    const outcome = await this.link.run(header.msg_id, label, code);
    if (outcome.status === 'error') {
      if (!silent) this.publisher.send('error', outcome.error, header);
      const reply = { status: 'error', execution_count, ...outcome.error };
      return { reply, stopsQueue: request.stop_on_error !== false && !silent };
    }
    if (outcome.result && !silent) {
      const { data, metadata } = outcome.result;
      this.publisher.send('execute_result', { execution_count, data, metadata }, header);
    }
    const user_expressions = await this.#expressions(header.msg_id, request.user_expressions);
    const reply = { status: 'ok', execution_count, user_expressions, payload: [] };
    return { reply, stopsQueue: false };
  }

  async #expressions(id: string, expressions: Record<string, string> = {}): Promise<object> {
    const values: Record<string, object> = {};
    for (const [name, code] of Object.entries(expressions)) {
      const outcome = await this.link.run(`${id}:${name}`, `expression ${name}`, code);
      values[name] = expressionReply(outcome);
    }
    return values;
  }
}

function expressionReply(outcome: Outcome): object {
  if (outcome.status === 'error') return { status: 'error', ...outcome.error };
  const { data, metadata }: Bundle = outcome.result ?? {
    data: { 'text/plain': 'undefined' },
    metadata: {},
  };
  return { status: 'ok', data, metadata };
}

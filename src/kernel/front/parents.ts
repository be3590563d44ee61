import type { Header, Message } from './wire.js';

/** How many requests are remembered for output that comes after their end. */
const REMEMBERED = 5000;

type Parent = Pick<Message, 'header' | 'ids' | 'content'>;

/** The requests that output belongs to, by the id of the run they started. */
export class Parents {
  readonly #requests = new Map<string, Parent>();

  add({ header, ids, content }: Message): void {
    const allow_stdin = content['allow_stdin'];
    this.#requests.set(header.msg_id, { header, ids, content: { allow_stdin } });
    const [oldest] = this.#requests.keys();
    if (this.#requests.size > REMEMBERED && oldest) this.#requests.delete(oldest);
  }

  message(run: string | undefined): Parent | undefined {
    // Expressions of a request run under its id with their name behind it.
    return this.#requests.get(run?.replace(/:.*$/, '') ?? '');
  }

  header(run: string | undefined): Header | undefined {
    return this.message(run)?.header;
  }
}

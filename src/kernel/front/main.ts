/** The thread that speaks to Jupyter. User code can neither block nor break it. */
import { parentPort, workerData, type MessagePort } from 'node:worker_threads';
import type { Router } from 'zeromq';
import { remoteTypeEngine, serveTypeEngine } from '../../cells/types/remote-type-engine.js';
import { lateLine } from '../types/late-line.js';
import { portLine } from '../types/port-line.js';
import { CellsLink } from './cells-link.js';
import { readConnection } from './connection.js';
import { Kernel } from './kernel.js';
import { followParent } from './follow-parent.js';
import { bindSockets } from './sockets.js';
import { welcomeSubscribers } from './subscribers.js';
import { Wire } from './wire.js';

interface FrontData {
  readonly connectionFile: string;
  readonly flags: SharedArrayBuffer;
  readonly cells: MessagePort;
  readonly answers: MessagePort;
  readonly types: MessagePort;
}

/** How long the cells' thread has to end after a shutdown before the process is killed. */
const GRACE_MS = 500;

/** An error of this thread ends the kernel; see `main.ts`. */
function fail(reason: Error): void {
  setImmediate(() => {
    throw reason;
  });
}

async function serve(main: MessagePort, data: FrontData): Promise<void> {
  const connection = readConnection(data.connectionFile);
  const wire = new Wire(connection.key);
  const sockets = await bindSockets(connection);
  const judge = lateLine();
  const types = remoteTypeEngine(judge);
  serveTypeEngine(portLine(data.types), types);
  const link: CellsLink = new CellsLink(data.cells, new Int32Array(data.flags), data.answers, (m) =>
    kernel.fromCells(m),
  );
  const end = (): void => {
    judge.end();
    for (const socket of Object.values(sockets)) socket.close();
    link.exit();
    setTimeout(() => process.kill(process.pid, 'SIGKILL'), GRACE_MS);
  };
  const kernel: Kernel = new Kernel(sockets, wire, link, types, end);
  followParent();
  kernel.publisher.status('starting');

  const listen = async (socket: Router): Promise<void> => {
    for await (const frames of socket) {
      const message = wire.read(frames);
      if (message) kernel.receive(socket, message);
    }
  };
  const input = async (): Promise<void> => {
    for await (const frames of sockets.stdin) {
      const message = wire.read(frames);
      if (message?.header.msg_type === 'input_reply') link.answer(String(message.content['value']));
    }
  };
  const beat = async (): Promise<void> => {
    for await (const frames of sockets.heartbeat) await sockets.heartbeat.send(frames);
  };
  const served = Promise.all([
    listen(sockets.shell),
    listen(sockets.control),
    welcomeSubscribers(sockets.iopub, kernel.publisher),
    input(),
    beat(),
  ]);
  main.postMessage('bound');
  const { openTypes } = await import('../types/open-types.js');
  judge.open(openTypes(fail));
  await served;
}

if (parentPort) void serve(parentPort, workerData as FrontData);

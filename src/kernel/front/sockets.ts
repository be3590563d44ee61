import { createRequire } from 'node:module';
import type * as zeromq from 'zeromq';
import { addressOf, type Connection } from './connection.js';
import { letNobodyInUnasked } from './subscribers.js';
import { withoutZeromq } from './without-zeromq.js';

const { Reply, Router, XPublisher } = loadZeromq();

/** zeromq is native code: it fails to load where its package lacks a binary for the machine. */
function loadZeromq(): typeof zeromq {
  try {
    return createRequire(import.meta.url)('zeromq') as typeof zeromq;
  } catch (error) {
    throw new Error(withoutZeromq(error), { cause: error });
  }
}

export interface Sockets {
  readonly shell: zeromq.Router;
  readonly control: zeromq.Router;
  readonly stdin: zeromq.Router;
  readonly iopub: zeromq.XPublisher;
  readonly heartbeat: zeromq.Reply;
}

/** Binds the five sockets of a kernel at the connection file's address and nowhere else. */
export async function bindSockets(connection: Connection): Promise<Sockets> {
  const curve =
    connection.curve_secretkey && connection.curve_publickey
      ? {
          curveServer: true,
          curveSecretKey: connection.curve_secretkey,
          curvePublicKey: connection.curve_publickey,
        }
      : {};
  // No limit on what waits to be sent, and sends that end at once: none is lost or overtaken.
  const options = {
    linger: 1000,
    sendHighWaterMark: 0,
    receiveHighWaterMark: 0,
    sendTimeout: 0,
    ...curve,
  };
  const sockets = {
    shell: new Router(options),
    control: new Router(options),
    stdin: new Router(options),
    iopub: new XPublisher(options),
    heartbeat: new Reply({ linger: 0, ...curve }),
  };
  letNobodyInUnasked(sockets.iopub);
  await Promise.all([
    sockets.shell.bind(addressOf(connection, connection.shell_port)),
    sockets.control.bind(addressOf(connection, connection.control_port)),
    sockets.stdin.bind(addressOf(connection, connection.stdin_port)),
    sockets.iopub.bind(addressOf(connection, connection.iopub_port)),
    sockets.heartbeat.bind(addressOf(connection, connection.hb_port)),
  ]);
  return sockets;
}

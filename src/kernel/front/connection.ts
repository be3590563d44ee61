import fs from 'node:fs';

/** What Jupyter's connection file says. */
export interface Connection {
  readonly transport: 'tcp' | 'ipc';
  readonly ip: string;
  readonly key: string;
  readonly shell_port: number;
  readonly iopub_port: number;
  readonly control_port: number;
  readonly stdin_port: number;
  readonly hb_port: number;
  readonly curve_publickey?: string;
  readonly curve_secretkey?: string;
}

const PORTS = ['shell_port', 'iopub_port', 'control_port', 'stdin_port', 'hb_port'] as const;

/** Reads a connection file; says which field is wrong. */
export function readConnection(file: string): Connection {
  const fields = JSON.parse(fs.readFileSync(file, 'utf8')) as Partial<
    Connection & { signature_scheme: string }
  >;
  const scheme = fields.signature_scheme ?? 'hmac-sha256';
  if (scheme !== 'hmac-sha256')
    throw new Error(
      `${file}: signature_scheme is ${scheme}, but this kernel signs with hmac-sha256`,
    );
  for (const port of PORTS)
    if (!Number.isInteger(fields[port]))
      throw new Error(`${file}: ${port} is ${String(fields[port])}, but must be a port number`);
  return { transport: 'tcp', ip: '127.0.0.1', key: '', ...fields } as Connection;
}

export function addressOf({ transport, ip }: Connection, port: number): string {
  return transport === 'ipc' ? `ipc://${ip}-${port}` : `tcp://${ip}:${port}`;
}

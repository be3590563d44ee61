/** The least that a kernel in Node can be: it answers kernel_info and nothing else. */
import { createHmac, randomUUID } from 'node:crypto';
import fs from 'node:fs';
import { createRequire } from 'node:module';

const { Publisher, Router } = createRequire(import.meta.url)('zeromq');
const connection = JSON.parse(fs.readFileSync(process.argv[2] ?? '', 'utf8'));
const bound = async (Socket, port) => {
  const socket = new Socket();
  await socket.bind(`tcp://${connection.ip}:${connection[port]}`);
  return socket;
};
const [shell] = await Promise.all([
  bound(Router, 'shell_port'),
  bound(Router, 'control_port'),
  bound(Publisher, 'iopub_port'),
]);
for await (const frames of shell) {
  const at = frames.findIndex((frame) => frame.toString() === '<IDS|MSG>');
  const header = {
    msg_id: randomUUID(),
    msg_type: 'kernel_info_reply',
    session: 'least',
    username: 'kernel',
    date: new Date().toISOString(),
    version: '5.4',
  };
  const content = { status: 'ok', protocol_version: '5.4' };
  const parts = [JSON.stringify(header), frames[at + 2], '{}', JSON.stringify(content)];
  const hmac = createHmac('sha256', connection.key);
  for (const part of parts) hmac.update(part);
  await shell.send([...frames.slice(0, at + 1), hmac.digest('hex'), ...parts]);
}

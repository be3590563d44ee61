"""Two users of a JupyterHub log in with passwords, start a server and a kernel each, and run cells. Prints what came of it as JSON."""
import json, sys, time, uuid
import requests
import websocket

ORIGIN, PASSWORDS = sys.argv[1], json.loads(sys.argv[2])


class User:
    def __init__(self, name):
        self.name, self.session = name, requests.Session()
        self.server = f'{ORIGIN}/user/{name}'

    def log_in(self, password):
        self.session.get(f'{ORIGIN}/hub/login')
        token = self.session.cookies.get('_xsrf', path='/hub/')
        return self.session.post(
            f'{ORIGIN}/hub/login', data={'username': self.name, 'password': password, '_xsrf': token}
        )

    def start(self):
        self.session.get(f'{ORIGIN}/hub/spawn/{self.name}')
        deadline = time.monotonic() + 120
        while self.session.get(f'{self.server}/api/kernelspecs').status_code != 200:
            # The first page of the server fetches its own sign-in from the hub.
            self.session.get(f'{self.server}/lab')
            if time.monotonic() > deadline:
                raise TimeoutError(f'the server of {self.name} did not start')
            time.sleep(0.5)
        self.token = self.session.cookies.get('_xsrf', path=f'/user/{self.name}/')
        made = self.session.post(
            f'{self.server}/api/kernels', json={'name': 'cocked-hat'}, headers={'X-XSRFToken': self.token}
        )
        made.raise_for_status()
        self.kernel = made.json()['id']
        cookies = '; '.join(
            f'{c.name}={c.value}' for c in self.session.cookies if f'/user/{self.name}/'.startswith(c.path)
        )
        self.socket = websocket.create_connection(
            f'{self.server}/api/kernels/{self.kernel}/channels'.replace('http', 'ws', 1),
            cookie=cookies, origin=ORIGIN, timeout=60,
        )

    def run(self, code):
        """Text of the cell's value, or its error."""
        id = uuid.uuid4().hex
        header = {'msg_id': id, 'msg_type': 'execute_request', 'session': id, 'username': self.name, 'version': '5.3'}
        content = {'code': code, 'silent': False, 'store_history': True, 'allow_stdin': False, 'stop_on_error': True}
        self.socket.send(json.dumps({
            'channel': 'shell', 'header': header, 'parent_header': {}, 'metadata': {}, 'content': content, 'buffers': [],
        }))
        value = ''
        while True:
            message = json.loads(self.socket.recv())
            if message['parent_header'].get('msg_id') != id:
                continue
            kind, content = message['msg_type'], message['content']
            if kind == 'execute_result':
                value = content['data']['text/plain']
            elif kind == 'error':
                value = f"{content['ename']}: {content['evalue']}"
            elif kind == 'status' and content['execution_state'] == 'idle':
                return value


ana, ben = User('ana'), User('ben')
refused = User('ana').log_in('wrong').status_code
unknown = User('mallory').log_in('').status_code
for user in (ana, ben):
    user.log_in(PASSWORDS[user.name])
    user.start()
answer = {
    'refused': [refused, unknown],
    'running': [u.session.get(f'{u.server}/api/kernels/{u.kernel}').json()['execution_state'] for u in (ana, ben)],
    'ana': ana.run("import { angle } from 'cocked-hat';\nconst whose = 'ana';\nangle('41°18.6′')"),
    'unknown to ben': ben.run('typeof (globalThis as any).whose'),
    'ben': ben.run("const whose = 'ben';\nwhose"),
    'ana after ben': ana.run('whose'),
    'folders': [u.run('process.cwd()') for u in (ana, ben)],
    'strange server': ben.session.get(f'{ana.server}/api/kernels').status_code,
    'written': ana.run("import fs from 'node:fs';\nfs.writeFileSync('diary.txt', 'mine');\n'written'"),
    'read by the other': ben.run("import fs from 'node:fs';\nfs.readFileSync('../ana/diary.txt', 'utf8')"),
}
json.dump(answer, sys.stdout)

/** Why there is no kernel without zeromq on this machine, and what helps. */
export function withoutZeromq(reason: unknown): string {
  const { message } = reason as { message?: unknown };
  const said = (typeof message === 'string' ? message : String(reason)).split('\n')[0] ?? '';
  const machine = `${process.platform}-${process.arch}, Node ${process.version}`;
  return (
    `the kernel cannot load the package zeromq, through which it speaks to Jupyter (${machine}): ${said}\n` +
    'Install it again in the folder of cocked-hat (npm ci, or npm install zeromq); where no binary is made ' +
    'for this machine, build it there with npm rebuild zeromq (needs CMake and a C++ compiler). ' +
    'Without Jupyter, cocked-hat run NOTEBOOK needs no zeromq.'
  );
}

import { PROTOCOL_VERSION } from './wire.js';

declare const PACKAGE_VERSION: string;

/** The answer to `kernel_info_request`. */
export function kernelInfo(): object {
  return {
    status: 'ok',
    protocol_version: PROTOCOL_VERSION,
    implementation: 'cocked-hat',
    implementation_version: PACKAGE_VERSION,
    language_info: {
      name: 'typescript',
      version: '5.0.4',
      mimetype: 'application/typescript',
      file_extension: '.ts',
      pygments_lexer: 'typescript',
      codemirror_mode: { name: 'typescript', typescript: true },
      nbconvert_exporter: 'script',
    },
    banner: `Cocked Hat ${PACKAGE_VERSION}: TypeScript on Node ${process.version}`,
    debugger: true,
    supported_features: ['debugger'],
    help_links: [],
  };
}

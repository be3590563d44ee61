/** What we use of `@jupyterlite/services`, which JupyterLite shares at run time. */
export interface Header {
  readonly msg_id: string;
}

export interface KernelOptions {
  readonly id: string;
  readonly name: string;
  readonly sendMessage: (message: unknown) => void;
  readonly location: string;
}

type Content = Record<string, unknown>;

/** The base class of kernels in the page. */
export interface BaseKernel {
  readonly isDisposed: boolean;
  readonly executionCount: number;
  readonly parentHeader: Header | undefined;
  dispose(): void;
  stream(content: Content, parent?: Header): void;
  displayData(content: Content, parent?: Header): void;
  updateDisplayData(content: Content, parent?: Header): void;
  clearOutput(content: Content, parent?: Header): void;
  publishExecuteResult(content: Content, parent?: Header): void;
  publishExecuteError(content: Content, parent?: Header): void;
  handleComm(
    type: string,
    content: Content,
    metadata: Content,
    buffers?: unknown[],
    parent?: Header,
  ): void;
}

export interface LiteServices {
  readonly BaseKernel: new (options: KernelOptions) => BaseKernel;
  readonly IKernelSpecs: unknown;
}

export interface KernelSpecs {
  register(entry: { spec: object; create: (options: KernelOptions) => Promise<BaseKernel> }): void;
}

export function kernelProgram(): Promise<string>;

/** @param file where it goes, whole or not at all; dist/overdrive-bench.html else */
export function buildSingleFile(file?: string): Promise<void>;

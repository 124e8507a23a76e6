export function findBrowser(options?: { start?: boolean }): string | null;
export function browserArguments(): string[];
export function canInstall(): boolean;
export function installBrowser(): boolean;

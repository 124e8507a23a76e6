import type { Server } from 'node:http';

export const CONTENT_SECURITY_POLICY: string;
/** @param folder the built app */
export function createAppServer(folder: string, port: number): Server;
export function runsAlready(port: number): Promise<boolean>;

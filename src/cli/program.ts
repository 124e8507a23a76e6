// Set by the build from package.json, so that app and command line name the same version.
declare const PROGRAM_VERSION: string;

export const programVersion: string = PROGRAM_VERSION;
export const programName = 'overdrive-bench';

/** A file of the sample runs, from beside the app. @param file its name below their folder */
export const sampleFile = (file: string): Promise<Response> => fetch(`./sample-runs/${file}`);

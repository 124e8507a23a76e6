/** Time in which a browser has surely begun to write a file that it was offered. */
const HELD_MS = 60_000;

/** Offers bytes as a file; where it goes is the browser's and its user's to say. */
export function putDown(name: string, bytes: Uint8Array<ArrayBuffer>, type: string): void {
  const address = URL.createObjectURL(new Blob([bytes], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), HELD_MS);
}

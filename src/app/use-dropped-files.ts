import { useEffect, useEffectEvent, useState } from 'react';
import { rememberAgain, type FileAgain } from './follow-desk.ts';

/** Files held over the page, before they are let go. */
export interface Hovering {
  count: number;
}

/** How a dropped file can be looked at again, where the browser says (File System Access). */
function wayOf(item: DataTransferItem): Promise<FileAgain | null> | null {
  const ask: unknown = Reflect.get(item, 'getAsFileSystemHandle');
  if (typeof ask !== 'function') return null;
  const given = ask.call(item) as Promise<(Partial<FileAgain> & { name: string }) | null>;
  return given.then(
    (way) => (way?.getFile === undefined ? null : (way as FileAgain)),
    () => null,
  );
}

/**
 * Takes files that are dropped anywhere on the page; a browser would otherwise leave the app and show the file.
 * @returns what hovers at the moment, or null
 */
export function useDroppedFiles(take: (files: File[]) => void): Hovering | null {
  const [hovering, setHovering] = useState<Hovering | null>(null);
  const taking = useEffectEvent(take);
  useEffect(() => {
    // Entering a child comes before leaving its parent: counted, so that the strip does not flicker.
    let depth = 0;
    const holdsFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
    const over = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      if (event.dataTransfer) event.dataTransfer.dropEffect = 'copy';
    };
    const enter = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      depth++;
      if (depth === 1) setHovering({ count: event.dataTransfer?.items.length ?? 1 });
    };
    const leave = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      depth = Math.max(0, depth - 1);
      if (depth === 0) setHovering(null);
    };
    const drop = (event: DragEvent): void => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      depth = 0;
      setHovering(null);
      const files = [...(event.dataTransfer?.files ?? [])];
      const items = [...(event.dataTransfer?.items ?? [])].filter((item) => item.kind === 'file');
      // Asked for while the drop lasts; afterwards the browser gives none.
      for (const [index, item] of items.entries()) {
        const file = files[index];
        const way = wayOf(item);
        if (file !== undefined && way !== null) rememberAgain(file, way);
      }
      taking(files);
    };
    window.addEventListener('dragover', over);
    window.addEventListener('dragenter', enter);
    window.addEventListener('dragleave', leave);
    window.addEventListener('drop', drop);
    return () => {
      window.removeEventListener('dragover', over);
      window.removeEventListener('dragenter', enter);
      window.removeEventListener('dragleave', leave);
      window.removeEventListener('drop', drop);
    };
  }, []);
  return hovering;
}

import { useEffect, useEffectEvent, useState } from 'react';
import { dropped, type Dropped } from './dropped-files.ts';

/** Files held over the page, before they are let go. */
export interface Hovering {
  count: number;
}

/**
 * Takes files that are dropped anywhere on the page; a browser would otherwise leave the app and show the file.
 * @returns what hovers at the moment, or null
 */
export function useDroppedFiles(take: (drop: Dropped) => void): Hovering | null {
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
      taking(dropped(event.dataTransfer));
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

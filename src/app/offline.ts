/** What the page may ask of the program that the browser keeps. */
export interface Offline {
  subscribe: (changed: () => void) => () => void;
  /** Whether a newer program is kept, that comes once every page of the app was closed. */
  newer: () => boolean;
}

/**
 * Keeps the whole program in the browser, so that it opens without the server. A newer one is left to wait until no page is open:
 * nothing is ever loaded anew under a running review, and no page finds its later parts thrown away.
 */
export function keepForOffline(): Offline {
  let newer = false;
  const listeners = new Set<() => void>();
  const keep = async (): Promise<void> => {
    const registration = await navigator.serviceWorker.register('./sw.js');
    const look = (): void => {
      // The first of all is no newer one.
      if (registration.waiting === null || navigator.serviceWorker.controller === null) return;
      newer = true;
      for (const changed of listeners) changed();
    };
    look();
    registration.addEventListener('updatefound', () => {
      registration.installing?.addEventListener('statechange', look);
    });
  };
  // After the page is up: what is kept for later must not slow down now. Refused (private window): it runs as before.
  const later = (): void => void setTimeout(() => void keep().catch(() => undefined), 1000);
  // A page from the disk is all there is.
  if (import.meta.env.PROD && 'serviceWorker' in navigator && window.location.protocol.startsWith('http')) {
    if (document.readyState === 'complete') later();
    else window.addEventListener('load', later, { once: true });
  }
  return {
    subscribe(changed) {
      listeners.add(changed);
      return () => listeners.delete(changed);
    },
    newer: () => newer,
  };
}

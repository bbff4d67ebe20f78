/** Has the browser keep the app on this device, so that it opens without a network; tells once a newer one is there. */
import { createSignal, onCleanup, type Accessor } from 'solid-js';

const keeper = (): ServiceWorkerContainer | null =>
  import.meta.env.PROD && 'serviceWorker' in navigator ? navigator.serviceWorker : null;

let isKept = false;

/** Does nothing where the browser keeps no apps, or keeps none from here: only over https, or from the machine itself. */
export const keepAppForOffline = (): void => {
  const at = keeper();
  if (!at || isKept) return;
  isKept = true;
  at.register('./service-worker.js').then(
    (registration) => {
      // A page on a phone's home screen is not opened for days, only looked at.
      document.addEventListener('visibilitychange', () => {
        if (document.visibilityState === 'visible') registration.update().catch(() => undefined);
      });
    },
    // Whoever cannot keep it still has the app as long as the network is there.
    () => undefined,
  );
};

/**
 * Whether a newer app than this page's is kept by now, which the page gets when it is loaded again. Asked before
 * anything is waited for: a newer one may be there soon.
 */
export const createNewer = (): Accessor<boolean> => {
  const [isNewer, setIsNewer] = createSignal(false);
  const at = keeper();
  // On a first visit, the app that takes over is the page's own.
  let hasBefore = at?.controller != null;
  const takenOver = (): void => {
    setIsNewer(hasBefore);
    hasBefore = true;
  };
  at?.addEventListener('controllerchange', takenOver);
  onCleanup(() => at?.removeEventListener('controllerchange', takenOver));
  return isNewer;
};

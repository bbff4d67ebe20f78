/** Has the browser keep the app on this device, so that it opens without a network. */

/** Does nothing where the browser keeps no apps, or keeps none from here: only over https, or from the machine itself. */
export const keepAppForOffline = (): void => {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  // Whoever cannot keep it still has the app as long as the network is there.
  navigator.serviceWorker.register('./service-worker.js').catch(() => undefined);
};

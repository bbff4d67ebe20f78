/**
 * Keeps the whole app on the device and answers for the network, so that it opens without one.
 *
 * A new build is fetched beside the one that is kept and is what the next page is opened with. A page that is open then
 * goes on with its own: the name of a file tells what is in it, and the build before is kept as well.
 */
declare const self: ServiceWorkerGlobalScope;
/** Written in when the app is built: every file, and the hash of what is in it. */
declare const BUILD: {
  readonly version: string;
  readonly files: readonly { readonly path: string; readonly integrity: string }[];
};

const NAME = 'pourwright.build.';
const OWN = `${NAME}${BUILD.version}`;
const PAGE = './';

const fetchBuild = async (): Promise<void> => {
  const own = await caches.open(OWN);
  const files = BUILD.files.map(({ path, integrity }) => new Request(path, { integrity, cache: 'no-cache' }));
  try {
    // A file of another build than this worker's does not match its hash.
    await own.addAll(files);
  } catch (error) {
    await caches.delete(OWN);
    throw error;
  }
  await self.skipWaiting();
};

/** In the order in which they were first kept. */
const otherBuilds = async (): Promise<readonly string[]> =>
  (await caches.keys()).filter((name) => name.startsWith(NAME) && name !== OWN);

const takeOver = async (): Promise<void> => {
  const long = (await otherBuilds()).slice(0, -1);
  await Promise.all(long.map((name) => caches.delete(name)));
  await self.clients.claim();
};

// Some servers say in every answer that it depends on who asks; for files like these it does not.
const SAME_FOR_ALL = { ignoreVary: true };

const keptPage = async (request: Request): Promise<Response> =>
  (await (await caches.open(OWN)).match(PAGE, SAME_FOR_ALL)) ?? fetch(request);

const keptFile = async (request: Request): Promise<Response> =>
  (await caches.match(request, SAME_FOR_ALL)) ?? fetch(request);

self.addEventListener('install', (event) => event.waitUntil(fetchBuild()));
self.addEventListener('activate', (event) => event.waitUntil(takeOver()));
self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { scope } = self.registration;
  if (request.method !== 'GET' || !request.url.startsWith(scope)) return;
  const isPage = request.url.replace(/#.*$/, '') === scope;
  event.respondWith(isPage ? keptPage(request) : keptFile(request));
});

// Keeps the page, so that it works without a network from the second visit on: all of its files, and never those of two versions at once.
export {};

declare const FILES: string[];
declare const VERSION: string;

interface Kept extends Event {
  waitUntil(work: Promise<unknown>): void;
}

interface Asked extends Kept {
  request: Request;
  respondWith(answer: Promise<Response>): void;
}

const here = self as unknown as EventTarget & { location: Location; registration: { scope: string }; clients: { claim(): Promise<void> } };
const prefix = "waterscript-playground-";
const name = prefix + VERSION;

here.addEventListener("install", (event) =>
  (event as Kept).waitUntil(
    caches.open(name).then((cache) => cache.addAll(FILES.map((file) => new Request(new URL(file, here.registration.scope), { cache: "no-cache" })))),
  ),
);

here.addEventListener("activate", (event) =>
  (event as Kept).waitUntil(
    caches
      .keys()
      .then((all) => Promise.all(all.filter((each) => each.startsWith(prefix) && each !== name).map((each) => caches.delete(each))))
      .then(() => here.clients.claim()),
  ),
);

here.addEventListener("fetch", (event) => {
  const { request, respondWith } = { request: (event as Asked).request, respondWith: (answer: Promise<Response>) => (event as Asked).respondWith(answer) };
  if (request.method !== "GET" || new URL(request.url).origin !== here.location.origin) return;
  respondWith(caches.open(name).then(async (cache) => (await cache.match(request, { ignoreSearch: true })) ?? fetch(request)));
});

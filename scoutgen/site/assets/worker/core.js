/* The worker that keeps a site on the phone. The build writes worker.js beside the home page, which sets EDITION and
   loads in turn: the list of files (FILES), this, and what a locked site adds. scoutgen/site/offline.py says what they
   hold. Whatever is put in place of `answer` here is asked for every page and file; the rest stays as it is.

   Files are kept under the hash of their bytes, so that a file which did not change is neither fetched nor copied when
   a new version comes, a download cut off goes on where it stopped, and two versions can stand side by side. */
"use strict";

const SCOPE = new URL(self.registration.scope);
const STORE = "scoutgen " + SCOPE.href;
// Where the store says which version is served, and which files were there before the next one came.
const NOTE = SCOPE.href + "?kept=note";
const AT_ONCE = 6;
const LIST = new Map(FILES);
const TYPES = {
  html: "text/html; charset=utf-8", css: "text/css; charset=utf-8", js: "text/javascript; charset=utf-8",
  json: "application/json", webmanifest: "application/manifest+json", svg: "image/svg+xml", png: "image/png",
  jpg: "image/jpeg", jpeg: "image/jpeg", gif: "image/gif", webp: "image/webp", pdf: "application/pdf",
  csv: "text/csv; charset=utf-8", txt: "text/plain; charset=utf-8", woff2: "font/woff2"
};
const TEXT = /\.(?:html|json|js|css|svg|txt)$/;
let stopped = false;
let filling = null;
const state = { kept: 0, of: LIST.size, whole: false, problem: "", update: false };

/* -- the store ------------------------------------------------------------------------------------------------- */

const place = hash => SCOPE.href + "?kept=" + hash;

async function hashOf(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, byte => byte.toString(16).padStart(2, "0")).join("").slice(0, 32);
}

async function noted(store) {
  const note = await store.match(NOTE);
  return note ? note.json() : null;
}

/* A file as the host gives it now, or an error that says why not. The bytes decide, not the status: a host may answer
   for 404.html with 404, and for a file that is gone with a friendly page. */
async function fetched(path) {
  // Some hosts send readers of …/index.html on to …/; asked for so, nobody is sent.
  const address = new URL(path.replace(/(^|\/)index\.html$/, "$1").split("/").map(encodeURIComponent).join("/"), SCOPE);
  // Past the browser's own cache, both ways: what it has may be old, and what it takes nobody could remove from here.
  const response = await fetch(address, { cache: "no-store", credentials: "same-origin" });
  const bytes = await response.arrayBuffer();
  if (await hashOf(bytes) === LIST.get(path)) return bytes;
  const { status } = response;
  const problem = new Error(status === 200 ? `the host gives out another ${path} than was built`
    : `${path} is not to be had (${status})`);
  problem.name = "Differs";
  throw problem;
}

/* Every page says when it was built, so a new version changes them all; where that is all that changed, the kept page
   with the new words in it has the new hash and need not be fetched. */
async function restamped(store, path, before) {
  const old = before && before.version !== EDITION.version && TEXT.test(path) && before.files[path];
  const had = old && await store.match(place(old));
  if (!had) return null;
  let text = await had.text();
  before.stamps.forEach((stamp, i) => { text = text.replaceAll(stamp, EDITION.stamps[i]) });
  const bytes = new TextEncoder().encode(text);
  return await hashOf(bytes) === LIST.get(path) ? bytes : null;
}

async function missingOf(store, paths) {
  const there = new Set((await store.keys()).map(request => new URL(request.url).searchParams.get("kept")));
  state.kept = [...LIST.values()].filter(hash => there.has(hash)).length;
  return paths.filter(path => !there.has(LIST.get(path)));
}

/* Keep these files; throws, and says in `state.problem` why, where one cannot be kept. */
async function keep(paths) {
  const store = await caches.open(STORE);
  const before = await noted(store);
  let missing = await missingOf(store, paths), next = 0;
  state.problem = "";
  async function one() {
    while (next < missing.length && !stopped) {
      const path = missing[next++];
      const bytes = await restamped(store, path, before) || await fetched(path);
      if (stopped) return;
      await store.put(place(LIST.get(path)), new Response(bytes));
      state.kept += 1;
      if (state.kept % 10 === 0) tell();
    }
  }
  try {
    // A version that took over meanwhile has swept out what it does not know: looked at again until nothing is missing.
    while (missing.length && !stopped) {
      next = 0;
      await Promise.all(Array.from({ length: AT_ONCE }, one));
      missing = await missingOf(store, paths);
    }
  } catch (error) {
    next = missing.length;
    state.problem = error.name === "QuotaExceededError" ? "full" : error.name === "Differs" ? error.message : "signal";
    throw error;
  } finally {
    await tell();
  }
}

/* -- coming and going ------------------------------------------------------------------------------------------ */

/* An update counts only when it is whole; until then, and if a file of it is missing, the version before stays. On a
   first visit there is none to lose: what tonight needs is kept first, and the rest while the reader reads. */
self.addEventListener("install", event => {
  const paths = [...LIST.keys()];
  state.update = Boolean(self.registration.active);
  event.waitUntil(keep(state.update ? paths : paths.slice(0, EDITION.first)));
});

self.addEventListener("activate", event => event.waitUntil(begin()));

async function begin() {
  state.update = false;
  const store = await caches.open(STORE);
  const wanted = new Set([...LIST.values(), "note"]);
  const old = (await store.keys()).filter(request => !wanted.has(new URL(request.url).searchParams.get("kept")));
  await Promise.all(old.map(request => store.delete(request)));
  await note(store, false);
  await self.clients.claim();
}

function note(store, whole) {
  const { version, stamps } = EDITION;
  return store.put(NOTE, new Response(JSON.stringify({ version, stamps, whole, files: Object.fromEntries(LIST) })));
}

/* Is everything of this version kept? A worker is stopped and started at any time; only the store remembers. */
async function whole() {
  if (!state.whole && !stopped && await caches.has(STORE)) {
    const said = await noted(await caches.open(STORE));
    state.whole = Boolean(said && said.whole && said.version === EDITION.version);
    if (state.whole) state.kept = LIST.size;
  }
  return state.whole;
}

/* Keep what is not kept yet; every page asks for it until all is there. */
async function fill() {
  if (await whole()) return;
  if (!filling) {
    filling = (async () => {
      try {
        await keep([...LIST.keys()]);
        if (!stopped) await note(await caches.open(STORE), true);
      } catch (error) { /* state.problem says which; the next page tries again */ }
      filling = null;
      await whole();
      await tell();
    })();
  }
  await filling;
}

async function remove() {
  stopped = true;
  state.whole = false;
  state.kept = 0;
  await filling;
  await caches.delete(STORE);
  await self.registration.unregister();
}

const about = () => ({ ...state, version: EDITION.version, built: EDITION.built, bytes: EDITION.bytes });

async function tell() {
  const pages = await self.clients.matchAll({ includeUncontrolled: true, type: "window" });
  for (const page of pages) if (page.url.startsWith(SCOPE.href)) page.postMessage({ scoutgen: about() });
}

self.addEventListener("message", event => {
  const { ask } = event.data || {};
  const reply = words => { if (event.ports[0]) event.ports[0].postMessage(words) };
  if (ask === "about") event.waitUntil(whole().then(() => reply(about())));
  // The reader has tapped "load"; nothing else makes a new version take over.
  if (ask === "load") self.skipWaiting();
  if (ask === "keep") { stopped = false; event.waitUntil(fill()) }
  if (ask === "remove") event.waitUntil(remove().then(() => reply("removed")));
});

/* -- answering ------------------------------------------------------------------------------------------------- */

/* A file of this version, from the store or, while it is still being kept, from the host. Undefined: not to be had. */
async function kept(path) {
  const had = await caches.match(place(LIST.get(path)), { cacheName: STORE });
  if (had) return had;
  try { return new Response(await fetched(path)) } catch (error) { return undefined }
}

function as(path, response, status) {
  const type = TYPES[path.slice(path.lastIndexOf(".") + 1)] || "application/octet-stream";
  return new Response(response.body, { status: status || 200, headers: { "content-type": type } });
}

/* The page for unknown addresses stands at any depth, so its links begin at the root it was built for; here that is
   where the site really is. */
async function nothing(status = 404) {
  const page = await kept("404.html");
  if (!page) return new Response("Nothing is here", { status: 404 });
  const text = (await page.text()).replaceAll(/([=:] ?")(\/(?!\/)[^"]*)/g, (all, before, path) =>
    path.startsWith(EDITION.root) ? before + SCOPE.pathname + path.slice(EDITION.root.length) : all);
  return as("404.html", new Response(text), status);
}

async function answer(path, request) {
  const file = path === "" || path.endsWith("/") ? path + "index.html" : path;
  if (file === "404.html") return nothing(200);
  if (LIST.has(file)) {
    const response = await kept(file);
    if (response) return as(file, response);
    // Not kept yet and no signal, or the host has a newer one already; never an old one from the browser's own cache.
    try { return await fetch(request, { cache: "no-store" }) } catch (error) {
      const page = "on-this-phone/";
      return request.mode === "navigate" && path !== page && LIST.has(page + "index.html")
        ? Response.redirect(new URL(page, SCOPE), 302) : Response.error();
    }
  }
  if (LIST.has(file + "/index.html")) {
    return Response.redirect(new URL(encodeURI(file) + "/" + new URL(request.url).search, SCOPE), 301);
  }
  // Not of this edition: another one may stand in a folder of this host, below this one.
  try {
    const response = await fetch(request);
    if (response.status !== 404) return response;
  } catch (error) { /* no signal */ }
  return request.mode === "navigate" ? nothing() : new Response("", { status: 404 });
}

self.addEventListener("fetch", event => {
  const url = new URL(event.request.url);
  if (stopped || event.request.method !== "GET" || !(url.origin + url.pathname).startsWith(SCOPE.href)) return;
  let path = url.pathname.slice(SCOPE.pathname.length);
  // What cannot be decoded is no address of ours, and is answered like any unknown one.
  try { path = decodeURIComponent(path) } catch (error) { /* as it is */ }
  event.respondWith(self.answer(path, event.request));
});

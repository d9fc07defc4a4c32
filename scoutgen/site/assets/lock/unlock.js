/* What a locked site adds to the worker (assets/worker/core.js): files are decrypted as pages ask for them, and nothing
   decrypted is ever stored. scoutgen/site/lock.py and locked_files.py say how blocks and index are made; LOCK, which the
   build writes above this, has salt, rounds, the index's first block, the hours without use, and the gate's own files. */
"use strict";

const VAULT = "scoutgen lock " + SCOPE.href;
const IDLE = LOCK.idle_hours * 3600e3;
const NO_MORE = "0".repeat(32);
const GATE = new Set(LOCK.gate);
const RECENT = 12;
// As hidden_addresses.py makes them.
const HIDDEN = /^[0-9a-f]{16}(?:[/.]|$)/;
const bytesOf = text => new TextEncoder().encode(text);
let open = null;
let noticed = 0;
// Locked, though the key could not be taken away: a full phone may refuse even that.
let shut = false;

/* -- the key, which this phone keeps until "Lock" --------------------------------------------------------------- */

function vault(mode, work) {
  return new Promise((done, failed) => {
    const opening = indexedDB.open(VAULT, 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore("lock");
    opening.onerror = () => failed(opening.error);
    opening.onsuccess = () => {
      const base = opening.result;
      try {
        const step = base.transaction("lock", mode);
        const asked = work(step.objectStore("lock"));
        step.oncomplete = () => { base.close(); done(asked && asked.result) };
        step.onabort = step.onerror = () => { base.close(); failed(step.error) };
      } catch (error) {
        base.close();
        failed(error);
      }
    };
  });
}

const keepKey = key => vault("readwrite", store => store.put({ key, used: Date.now() }, "key"));

/* The key, if there is one and it was used within the hours: a phone left lying is locked when it is next picked up. A
   clock that was set back counts as long unused. `using`: a reader has opened something just now. */
async function keptKey(using) {
  const had = await vault("readonly", store => store.get("key"));
  if (!had) return null;
  const rest = Date.now() - had.used;
  if (rest > IDLE || rest < -3600e3) {
    await lock();
    return null;
  }
  // A full phone does not take the new time; that keeps nobody from reading.
  if (using && rest > 60e3) await keepKey(had.key).catch(() => {});
  return had.key;
}

function dropVault() {
  return new Promise(done => {
    const gone = indexedDB.deleteDatabase(VAULT);
    gone.onsuccess = gone.onerror = gone.onblocked = done;
  });
}

async function lock() {
  open = null;
  try {
    await vault("readwrite", store => { store.clear() });
  } catch (error) {
    shut = true;
    await dropVault();
  }
  const pages = await self.clients.matchAll({ includeUncontrolled: true, type: "window" });
  for (const page of pages) if (page.url.startsWith(SCOPE.href)) page.postMessage({ scoutgenLock: "locked" });
}

/* -- blocks, index, files -------------------------------------------------------------------------------------- */

// As the core has them, whose names of functions are properties of self.
const asWritten = kept, plainly = answer;

async function decrypted(key, kind, name) {
  const response = await asWritten("b/" + name);
  if (!response) throw new DOMException("a block is neither here nor to be had", "NetworkError");
  const bytes = new Uint8Array(await response.arrayBuffer());
  const additionalData = bytesOf(`scoutgen lock 1 ${kind} ${name}`);
  return new Uint8Array(await crypto.subtle.decrypt(
    { name: "AES-GCM", iv: bytes.subarray(0, 12), additionalData }, key, bytes.subarray(12)));
}

function joined(pieces) {
  const all = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) { all.set(piece, at); at += piece.length }
  return all;
}

async function unpacked(bytes) {
  return new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip")));
}

/* The site as this key opens it. An OperationError: the key does not. */
async function opened(key) {
  const pieces = [];
  for (let name = LOCK.index; name !== NO_MORE;) {
    const text = await decrypted(key, "index", name);
    name = new TextDecoder().decode(text.subarray(0, 32));
    pieces.push(text.subarray(32));
  }
  const stream = joined(pieces);
  const length = new DataView(stream.buffer).getUint32(0);
  const index = await (await unpacked(stream.subarray(4, 4 + length))).json();
  const files = new Map(Object.entries(index.files));
  return {
    key, stamps: index.stamps, runs: index.runs, files, recent: new Map(),
    begins: new Set([...files].flatMap(([address, [seen]]) => [address, seen].map(path => path.split("/")[0]))),
    seen: new Map([...files].map(([address, [seen]]) => [seen, address]))
  };
}

/* The site, or null where it is locked. */
async function site(using) {
  if (shut) return null;
  // Looked at again from time to time, since another worker of this site may have locked it.
  if (open && Date.now() - noticed < 5e3) return open;
  const key = await keptKey(using);
  if (!key || stopped) return (open = null);
  noticed = Date.now();
  try {
    if (!open) open = await opened(key);
  } catch (error) {
    // The passphrase has changed with this version: the gate asks for the new one.
    if (error.name !== "OperationError") throw error;
    open = null;
  }
  return open;
}

function recently(from, name) {
  let block = from.recent.get(name);
  from.recent.delete(name);
  if (!block) {
    block = decrypted(from.key, "files", name);
    block.catch(() => from.recent.delete(name));
  }
  from.recent.set(name, block);
  if (from.recent.size > RECENT) from.recent.delete(from.recent.keys().next().value);
  return block;
}

async function file(from, address) {
  const [, run, start, length, stamped] = from.files.get(address);
  const names = from.runs[run];
  // All blocks but the last of a run are full.
  const first = await recently(from, names[0]);
  const room = first.length, from_ = Math.floor(start / room), to = Math.floor((start + length - 1) / room);
  const pieces = await Promise.all(names.slice(from_, to + 1).map(name => recently(from, name)));
  const bytes = joined(pieces).subarray(start - from_ * room, start - from_ * room + length);
  const response = await unpacked(bytes);
  if (!stamped) return response;
  // What any new build changes on every page stands in the index, so that pages need not be fetched again for it.
  const text = await response.text();
  return new Response(text.replace(/\u0002(\d+)\u0003/g, (_, which) => from.stamps[which]));
}

/* The core's page for unknown addresses is made from here as well. */
kept = async path => {
  const from = await site(false);
  return from && from.files.has(path) ? file(from, path) : asWritten(path);
};

/* -- answering ------------------------------------------------------------------------------------------------- */

function private_(path, response) {
  const headers = as(path, response).headers;
  headers.set("cache-control", "no-store");
  headers.set("x-content-type-options", "nosniff");
  return new Response(response.body, { headers });
}

function notHere(navigates) {
  const said = "This page is not on the phone yet, and there is no connection. Try again with one.";
  const headers = { "content-type": "text/plain; charset=utf-8" };
  return navigates ? new Response(said, { status: 503, headers }) : Response.error();
}

async function toGate(path, request) {
  if (path === "" || path === "index.html") return as("index.html", await asWritten("index.html") || Response.error());
  const url = new URL(request.url);
  return Response.redirect(SCOPE.href + "#to=" + encodeURIComponent(path + url.search + url.hash), 302);
}

self.answer = async (path, request) => {
  if (GATE.has(path)) {
    const response = await asWritten(path);
    return response ? as(path, response) : Response.error();
  }
  const navigates = request.mode === "navigate";
  let from;
  try { from = await site(navigates) } catch (error) { return notHere(navigates) }
  const wanted = path === "" || path.endsWith("/") ? path + "index.html" : path;
  if (!from) {
    if (path && !HIDDEN.test(path)) {
      // Another edition may stand in a folder of this host, below this one.
      try {
        const response = await fetch(request);
        if (response.status !== 404) return response;
      } catch (error) { /* no signal */ }
    }
    return navigates ? toGate(path, request) : new Response("", { status: 403 });
  }
  const there = address => new URL(address.replace(/(^|\/)index\.html$/, "$1") + new URL(request.url).search, SCOPE);
  if (wanted !== "404.html" && from.seen.has(wanted)) {
    try { return private_(wanted, await file(from, from.seen.get(wanted))) } catch (error) { return notHere(navigates) }
  }
  for (const address of [wanted, wanted + "/index.html"]) {
    const seen = from.seen.has(address) ? address : from.files.has(address) && from.files.get(address)[0];
    if (seen) return Response.redirect(there(seen), 302);
  }
  // What begins as an address of ours and is none is not asked for: the host would learn a name that was mistyped.
  if (from.begins.has(path.split("/")[0])) return navigates ? nothing() : new Response("", { status: 404 });
  return plainly(path, request);
};

self.addEventListener("message", event => {
  const { ask, key } = event.data || {};
  const reply = words => { if (event.ports[0]) event.ports[0].postMessage(words) };
  if (ask === "gate") {
    event.waitUntil(site(false).then(from => !from, () => true).then(locked =>
      reply({ locked, salt: LOCK.salt, rounds: LOCK.rounds, first: EDITION.first })));
  }
  if (ask === "unlock") {
    event.waitUntil(opened(key).then(async from => {
      await keepKey(key);
      shut = false;
      open = from;
      noticed = Date.now();
      reply({ is: "open" });
    }).catch(error => reply({ is: error.name === "OperationError" ? "wrong" : error.name === "NetworkError" ? "signal"
      : error.name === "QuotaExceededError" ? "full" : "broken" })));
  }
  if (ask === "lock") event.waitUntil(lock().then(() => reply("locked")));
  if (ask === "remove") {
    open = null;
    event.waitUntil(dropVault());
  }
});

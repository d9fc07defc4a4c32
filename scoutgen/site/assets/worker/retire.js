/* What stands where a site keeps nothing on the phone: a copy kept from an earlier time is taken away, and the pages that
   are open are loaded anew. Nobody registers this; a browser that still has the keeping worker finds it as its update. */
"use strict";
self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", event => event.waitUntil((async () => {
  const scope = self.registration.scope;
  await caches.delete("scoutgen " + scope);
  await self.registration.unregister();
  const pages = await self.clients.matchAll({ type: "window" });
  await Promise.all(pages.filter(page => page.url.startsWith(scope)).map(page => page.navigate(page.url).catch(() => null)));
})()));

// In a preview nothing is kept. A service worker that a pressed site left at this address asks for its
// newest version now and then, finds this one, and is gone with all that it kept.
"use strict";

self.addEventListener("install", (event) => event.waitUntil(self.skipWaiting()));
self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) if (name.startsWith("guidegen-")) await caches.delete(name);
    await self.registration.unregister();
  })());
});

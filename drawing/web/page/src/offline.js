// Keeps the page's files on the device, so that it opens without a network. A new
// version has a new name, takes all its files and lets the old ones go.
"use strict";

const version = "VERSION", parts = PARTS;

addEventListener("install", (e) => { skipWaiting(); e.waitUntil(caches.open(version).then((c) => c.addAll(parts.map((p) => new Request(p, { cache: "reload" }))))); });
addEventListener("activate", (e) => e.waitUntil(caches.keys().then((all) => Promise.all(all.filter((n) => n !== version).map((n) => caches.delete(n)))).then(() => clients.claim())));
addEventListener("fetch", (e) => {
  if (e.request.method === "GET") e.respondWith(caches.match(e.request, { ignoreSearch: true }).then((kept) => kept || fetch(e.request)));
});

/// <reference lib="webworker" />
import type { TakeOver } from './messages.ts'

/**
 * Keeps the app's own files, so that a cold start needs no network. It never opens the database, never touches `/api`,
 * and takes over from an older one only when a person has said so.
 */
declare const self: ServiceWorkerGlobalScope
/** Filled in by the build: this version's name, and every file of it. */
declare const __SHELL__: { readonly version: string; readonly files: readonly string[] }

const PREFIX = 'shell-'
const CACHE = PREFIX + __SHELL__.version
const FILES = new Set(__SHELL__.files)
/** The app's own places; any other page is the server's. */
const PLACES = /^\/(?:$|job\/|people$|office$|set-up$|join$)/

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(CACHE)
      .then((cache) => cache.addAll([...FILES].map((file) => new Request(file, { cache: 'reload' })))),
  )
})

self.addEventListener('activate', (event) => {
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys())
        if (name.startsWith(PREFIX) && name !== CACHE) await caches.delete(name)
      // So that the very first visit already works without a network.
      await self.clients.claim()
    })(),
  )
})

self.addEventListener('message', (event) => {
  if (event.data === ('take-over' satisfies TakeOver)) void self.skipWaiting()
})

self.addEventListener('fetch', (event) => {
  const { request } = event
  const url = new URL(request.url)
  if (request.method !== 'GET' || url.origin !== self.location.origin) return
  if (request.mode === 'navigate' && PLACES.test(url.pathname))
    event.respondWith(fromShell('/index.html', request))
  else if (FILES.has(url.pathname)) event.respondWith(fromShell(url.pathname, request))
})

const fromShell = async (path: string, request: Request): Promise<Response> =>
  (await (await caches.open(CACHE)).match(path)) ?? fetch(request)

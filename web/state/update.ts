import { createSignal } from 'solid-js'
import type { TakeOver } from '../sw/messages.ts'

export type UpdateState = { readonly waits: () => boolean; takeOver(): void }

/** Registers the service worker and tells when a newer one waits. */
export const createUpdate = (): UpdateState => {
  const [waiting, setWaiting] = createSignal<ServiceWorker>()
  const watch = (registration: ServiceWorkerRegistration): void => {
    const look = (): void => {
      // Without a controller this is the first worker ever, and there is nothing newer to take over from.
      if (registration.waiting && navigator.serviceWorker.controller) setWaiting(registration.waiting)
    }
    look()
    registration.addEventListener('updatefound', () =>
      registration.installing?.addEventListener('statechange', look),
    )
  }
  if (import.meta.env.PROD && 'serviceWorker' in navigator)
    navigator.serviceWorker
      .register('/sw.js')
      .then(watch, (error: unknown) => console.error('service worker', error))
  return {
    waits: () => waiting() !== undefined,
    takeOver: () => {
      navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true })
      waiting()?.postMessage('take-over' satisfies TakeOver)
    },
  }
}

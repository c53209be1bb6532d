import { createSignal } from 'solid-js'
import { pushPage, watchSheets } from './sheet-history.ts'

/** Where the app is. A code lies in the fragment, so that it never reaches a server's log. */
export type Route =
  | { readonly is: 'jobs' }
  | { readonly is: 'job'; readonly job: string }
  | { readonly is: 'people' }
  | { readonly is: 'office' }
  | { readonly is: 'set-up'; readonly code: string }
  | { readonly is: 'join'; readonly code: string }
  | { readonly is: 'unknown' }

export const readRoute = (path: string, fragment: string): Route => {
  const code = fragment.replace(/^#/, '')
  const job = /^\/job\/([0-9a-f-]{36})$/.exec(path)
  if (job) return { is: 'job', job: job[1]! }
  switch (path) {
    case '/':
      return { is: 'jobs' }
    case '/people':
      return { is: 'people' }
    case '/office':
      return { is: 'office' }
    case '/set-up':
      return { is: 'set-up', code }
    case '/join':
      return { is: 'join', code }
    default:
      return { is: 'unknown' }
  }
}

export type RouteState = { readonly route: () => Route; go(path: string): void }

/** Six places need no library: the address bar is the state, and ordinary links work. */
export const createRoute = (): RouteState => {
  const here = (): Route => readRoute(location.pathname, location.hash)
  const [route, setRoute] = createSignal<Route>(here())
  const go = (path: string): void => {
    pushPage(path, () => {
      setRoute(here())
      scrollTo(0, 0)
    })
  }
  watchSheets()
  addEventListener('popstate', () => setRoute(here()))
  addEventListener('hashchange', () => setRoute(here()))
  document.addEventListener('click', (event) => {
    const path = ownLink(event)
    if (path === undefined) return
    event.preventDefault()
    go(path)
  })
  return { route, go }
}

const ownLink = (event: MouseEvent): string | undefined => {
  if (event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey)
    return undefined
  const link = event.target instanceof Element ? event.target.closest('a') : null
  if (!link || link.target || link.hasAttribute('download')) return undefined
  const url = new URL(link.href)
  const ours = url.origin === location.origin && readRoute(url.pathname, '').is !== 'unknown'
  return ours ? url.pathname + url.hash : undefined
}

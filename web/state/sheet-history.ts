/**
 * An open sheet has a state of its own in the browser's history, so that the phone's "back" closes the sheet and
 * nothing else. Closed by its button, it takes its state out again. One sheet is open at a time.
 */
let closeOpen: (() => void) | undefined
/** The browser goes back in its own time: until then neither a state may be pushed nor a page be left. */
let leaving = false
let afterwards: (() => void) | undefined

const isSheetState = (): boolean => (history.state as { sheet?: unknown } | null)?.sheet === true
const pushSheet = (): void => history.pushState({ sheet: true }, '')

/** Gives what takes the sheet's state out again. A sheet that follows another at once takes its state over. */
export const openSheet = (close: () => void): (() => void) => {
  closeOpen = close
  if (!leaving && !isSheetState()) pushSheet()
  return () => {
    if (closeOpen !== close) return
    closeOpen = undefined
    setTimeout(leaveIfClosed)
  }
}

const leaveIfClosed = (): void => {
  if (closeOpen || leaving || !isSheetState()) return
  leaving = true
  history.back()
}

/** Goes to another page of the app, in the place of a sheet's state where one is left. */
export const pushPage = (path: string, done: () => void): void => {
  const push = (): void => {
    if (isSheetState()) history.replaceState(null, '', path)
    else history.pushState(null, '', path)
    done()
  }
  if (leaving) afterwards = push
  else push()
}

const onPop = (): void => {
  if (leaving) {
    leaving = false
    const next = afterwards
    afterwards = undefined
    if (next) next()
    else if (closeOpen) pushSheet()
    return
  }
  if (isSheetState()) {
    leaveIfClosed()
    return
  }
  const close = closeOpen
  closeOpen = undefined
  close?.()
}

/** A page loaded again, or gone forward to, may stand on a state whose sheet is gone. */
export const watchSheets = (): void => {
  addEventListener('popstate', onPop)
  leaveIfClosed()
}

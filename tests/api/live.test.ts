import { afterEach, expect, test, vi } from 'vitest'
import { LIVE_ALIVE_MS, LIVE_QUIET_MS } from '../../api/contract/messages/live.ts'
import { entryText, openSite, pushed } from './site.ts'

afterEach(() => vi.useRealTimers())

/** The events of a stream, one by one. */
const listen = async (send: (request: Request) => Promise<Response>, cookie: string) => {
  const stop = new AbortController()
  const answer = await send(
    new Request('http://house.test/api/live', { headers: { cookie }, signal: stop.signal }),
  )
  const reader = answer.body!.getReader()
  let text = ''
  const next = async (): Promise<{ event: string; data: string }> => {
    while (!text.includes('\n\n')) text += new TextDecoder().decode((await reader.read()).value)
    const [one, ...rest] = text.split('\n\n')
    text = rest.join('\n\n')
    const field = (name: string) => new RegExp(`^${name}: (.*)$`, 'm').exec(one!)?.[1] ?? ''
    return { event: field('event'), data: field('data') }
  }
  return { type: answer.headers.get('content-type'), next, close: () => reader.cancel() }
}

test('[live] the stream says the log’s size at once and after each commit', async () => {
  const site = await openSite({ seed: 71 })
  const stream = await listen(site.send, site.owner.cookie())
  expect(stream.type).toBe('text/event-stream')
  expect(await stream.next()).toEqual({ event: 'grown', data: String(await site.size()) })
  await pushed(site.owner, { entries: [entryText(site, site.owner, {})] })
  expect(await stream.next()).toEqual({ event: 'grown', data: String(await site.size()) })
  await stream.close()
})

test('[live] while nothing happens it says that it is alive, well before a phone would take it for dead', async () => {
  vi.useFakeTimers()
  const site = await openSite({ seed: 72 })
  const stream = await listen(site.send, site.owner.cookie())
  expect((await stream.next()).event).toBe('grown')
  const size = String(await site.size())
  for (let i = 0; i < 3; i++) {
    const heard = stream.next()
    await vi.advanceTimersByTimeAsync(LIVE_ALIVE_MS)
    expect(await heard).toEqual({ event: 'alive', data: size })
  }
  expect(LIVE_ALIVE_MS * 2).toBeLessThan(LIVE_QUIET_MS)
  await stream.close()
})

import type { Wire } from '../web/sync/wire.ts'

/** Whoever answers requests as a server would. */
export type Answerer = (request: Request) => Response | Promise<Response>

const BASE = 'http://localhost'

/** A phone's line straight to the app, with a jar of its own for the session's cookie. */
export const lineTo = (answer: Answerer): Wire => {
  const cookies = new Map<string, string>()
  return async ({ method, path, headers: given, body }) => {
    const headers = new Headers(given)
    if (cookies.size > 0) headers.set('cookie', [...cookies].map(([k, v]) => `${k}=${v}`).join('; '))
    const request = new Request(BASE + path, {
      method,
      headers,
      ...(body === undefined ? {} : { body: body as BodyInit }),
    })
    const response = await answer(request)
    for (const line of response.headers.getSetCookie()) {
      const [name = '', ...value] = line.split(';')[0]!.split('=')
      cookies.set(name, value.join('='))
    }
    return {
      status: response.status,
      headers: response.headers,
      body: new Uint8Array(await response.arrayBuffer()),
    }
  }
}

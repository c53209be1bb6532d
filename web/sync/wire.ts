/** One request to the server; the session's cookie travels by itself. */
export type WireRequest = {
  readonly method: 'GET' | 'POST' | 'PUT'
  readonly path: string
  readonly headers?: Readonly<Record<string, string>>
  readonly body?: Uint8Array | string
}
export type WireAnswer = {
  readonly status: number
  readonly headers: { get(name: string): string | null }
  readonly body: Uint8Array
}
/** Throws `WireDown` where no whole answer came: whether the request arrived is then unknown. */
export type Wire = (request: WireRequest) => Promise<WireAnswer>

export class WireDown extends Error {
  override readonly name = 'WireDown'
}

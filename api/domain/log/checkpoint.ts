import { fail, ok, type Result } from '../result.ts'
import { readBase64, toBase64 } from './encoding.ts'

/** Size and root of a log: what a checkpoint says. */
export type TreeHead = { readonly size: number; readonly root: Uint8Array }
export type Checkpoint = TreeHead & { readonly origin: string; readonly extensions: readonly string[] }

/** Note text of a checkpoint. Source: C2SP tlog-checkpoint, Note text. */
export const writeCheckpoint = (
  checkpoint: TreeHead & { origin: string; extensions?: readonly string[] },
): string =>
  [
    checkpoint.origin,
    String(checkpoint.size),
    toBase64(checkpoint.root),
    ...(checkpoint.extensions ?? []),
    '',
  ].join('\n')

/** A decimal number as checkpoints write it: no sign, no leading zero, at most 2^53 − 1. */
export const readSize = (text: string): number | undefined => {
  const size = /^(?:0|[1-9][0-9]{0,15})$/.test(text) ? Number(text) : Number.NaN
  return Number.isSafeInteger(size) ? size : undefined
}

export const readRoot = (text: string): Uint8Array | undefined => {
  const root = readBase64(text)
  return root?.length === 32 ? root : undefined
}

/** Takes the note's text apart; verify the note first. Fails: `checkpoint-malformed`. */
export const readCheckpoint = (text: string): Result<Checkpoint, 'checkpoint-malformed'> => {
  if (!text.endsWith('\n')) return fail('checkpoint-malformed')
  const [origin, sizeText, rootText, ...extensions] = text.slice(0, -1).split('\n')
  const size = readSize(sizeText ?? '')
  const root = readRoot(rootText ?? '')
  if (!origin || size === undefined || !root || extensions.includes('')) return fail('checkpoint-malformed')
  return ok({ origin, size, root, extensions })
}

import { fail, ok, type Result } from '../result.ts'
import { readCheckpoint, readRoot, readSize, type TreeHead, writeCheckpoint } from './checkpoint.ts'
import { toBase64, toHex } from './encoding.ts'

/** A device's clocks at the moment of signing. */
export type Clock = { readonly at: string; readonly boot: string; readonly mono: number }

/** SHA-256(""). */
const EMPTY_ROOT = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'

/** What a device signs once per push: L24. */
export type DeviceHead = TreeHead & {
  readonly origin: string
  /** The last company checkpoint that this device has verified. */
  readonly seen: TreeHead
  readonly clock: Clock
}

export const companyOrigin = (company: string, demo = false): string =>
  `screedbook${demo ? '-demo' : ''}/${company}`

/** Whether a company's origin is a demonstration's (L12). */
export const isDemoOrigin = (origin: string): boolean => origin.startsWith('screedbook-demo/')

/** L23. */
export const deviceOrigin = (company: string, device: string, epoch: number): string =>
  `${company}/${device}/${epoch}`

/** The parts of a device's origin, or undefined where it has another form. */
export const readDeviceOrigin = (
  origin: string,
): { company: string; device: string; epoch: number } | undefined => {
  const match = /^(screedbook(?:-demo)?\/[0-9a-f-]{36})\/([0-9a-f-]{36})\/([1-9][0-9]{0,8})$/.exec(origin)
  return match ? { company: match[1]!, device: match[2]!, epoch: Number(match[3]) } : undefined
}

export const writeHead = (head: DeviceHead): string =>
  writeCheckpoint({
    ...head,
    extensions: [
      `seen ${head.seen.size} ${toBase64(head.seen.root)}`,
      `clock ${head.clock.at} ${head.clock.boot} ${head.clock.mono}`,
    ],
  })

/** Fails: `head-malformed`. Further extension lines are ignored. */
export const readHead = (text: string): Result<DeviceHead, 'head-malformed'> => {
  const checkpoint = readCheckpoint(text)
  if (!checkpoint.ok || !readDeviceOrigin(checkpoint.value.origin)) return fail('head-malformed')
  const [seenLine, clockLine] = checkpoint.value.extensions
  const [, seenSize, seenRoot] = /^seen (\S+) (\S+)$/.exec(seenLine ?? '') ?? []
  const [, at, boot, monoText] = /^clock (\S+) (\S+) (\S+)$/.exec(clockLine ?? '') ?? []
  const size = readSize(seenSize ?? '')
  const root = readRoot(seenRoot ?? '')
  const mono = readSize(monoText ?? '')
  if (size === undefined || !root || !at || !boot || mono === undefined) return fail('head-malformed')
  // Of an empty tree there is one root.
  if (size === 0 && toHex(root) !== EMPTY_ROOT) return fail('head-malformed')
  const { origin, size: own, root: ownRoot } = checkpoint.value
  return ok({ origin, size: own, root: ownRoot, seen: { size, root }, clock: { at, boot, mono } })
}

/** SHA-256 of the bytes: 32 bytes. Passed in, since node and the browser have different ones. */
export type Sha256 = (bytes: Uint8Array) => Uint8Array

/** Ed25519 (RFC 8032) over the message with a key that its holder never shows: 64 bytes. */
export type Sign = (message: Uint8Array) => Promise<Uint8Array>

/** Whether the Ed25519 signature holds for a 32-byte public key. Never throws on malformed input. */
export type VerifySignature = (
  publicKey: Uint8Array,
  message: Uint8Array,
  signature: Uint8Array,
) => Promise<boolean>

/** Milliseconds since 1970-01-01T00:00:00Z by the clock on the wall: it may jump, and step back. */
export type Now = () => number

/** Milliseconds of a clock that only goes forward, from an unknown start: it counts within one run. */
export type Mono = () => number

/** So many bytes from a generator fit for keys. */
export type RandomBytes = (length: number) => Uint8Array

/** Clocks and chance, as both the phone's sync and the server are given them. */
export type Senses = {
  readonly now: Now
  readonly mono: Mono
  readonly random: RandomBytes
  readonly sha256: Sha256
  readonly verify: VerifySignature
}

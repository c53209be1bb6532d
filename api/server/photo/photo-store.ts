/**
 * Photos by the SHA-256 (hex) of their bytes, apart for each company; parts apart for each device, so that no phone can
 * spoil what another is sending. What `finish` calls whole has been hashed, is on the disk, and is never changed.
 */
export type PhotoStore = {
  /** Bytes held of the photo: all of them once it is whole, else what this device has sent. */
  held(company: string, hash: string, device: string): Promise<number>
  /** Adds a part at an offset; returns the bytes then held, or `offset-differs` where they don't meet. */
  write(
    company: string,
    hash: string,
    device: string,
    offset: number,
    part: Uint8Array,
  ): Promise<number | 'offset-differs'>
  /** Hashes what this device has sent and keeps it if it is the photo; else forgets the parts. */
  finish(company: string, hash: string, device: string): Promise<'whole' | 'hash-differs'>
  /** Forgets the parts of this device. */
  discard(company: string, hash: string, device: string): Promise<void>
  /** The first bytes of this device's parts: enough to tell what kind of file it is. */
  start(company: string, hash: string, device: string, length: number): Promise<Uint8Array>
  /** The whole photo, or undefined where it is not held whole. */
  open(
    company: string,
    hash: string,
  ): Promise<{ bytes: number; stream: ReadableStream<Uint8Array> } | undefined>
}

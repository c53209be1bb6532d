import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { readCheckpoint } from '../../../api/domain/log/checkpoint.ts'
import { readHex, toHex, toUtf8 } from '../../../api/domain/log/encoding.ts'
import {
  openNote,
  readNote,
  readVerifierKey,
  signNote,
  writeVerifierKey,
} from '../../../api/domain/log/note.ts'
import { signingKey } from '../../../api/server/keys.ts'
import { sha256, verifySignature } from '../../../api/server/senses.ts'
import { cases } from '../../kit/cases.ts'

const senses = { sha256, verify: verifySignature }
const published = cases<
  { seed_hex: string; message_hex: string },
  { public_hex: string; signature_hex: string }
>('ed25519')

describe(`[L12] ${published.claim}: ${published.source}`, () => {
  for (const { name, input, output } of published.rows)
    test(name, async () => {
      const key = signingKey(readHex(input.seed_hex)!)
      const message = readHex(input.message_hex)!
      expect(toHex(key.publicKey)).toBe(output.public_hex)
      expect(toHex(await key.sign(message))).toBe(output.signature_hex)
      expect(await verifySignature(key.publicKey, message, readHex(output.signature_hex)!)).toBe(true)
    })
})

type CheckpointOutput = {
  origin: string
  tree_size: number
  root_hash_hex: string
  sig_key_name: string
  key_id_hex: string
  sig_len_bytes: number
}
const checkpoints = cases<{ note: string }, CheckpointOutput>('checkpoint')

describe(`[L20] ${checkpoints.claim}: ${checkpoints.source}`, () => {
  for (const { name, input, output } of checkpoints.rows)
    test(name, () => {
      const note = readNote(toUtf8(input.note))
      const checkpoint = note.ok ? readCheckpoint(note.value.text) : note
      if (!note.ok || !checkpoint.ok) throw new Error('not read')
      expect(checkpoint.value).toMatchObject({
        origin: output.origin,
        size: output.tree_size,
        extensions: [],
      })
      expect(toHex(checkpoint.value.root)).toBe(output.root_hash_hex)
      const [signature] = note.value.signatures
      expect(signature?.name).toBe(output.sig_key_name)
      expect(toHex(signature!.keyId)).toBe(output.key_id_hex)
      expect(signature!.signature.length).toBe(output.sig_len_bytes)
    })
})

const key = signingKey(new Uint8Array(32).fill(3))
const noteKey = { name: 'screedbook/example', publicKey: key.publicKey }
const other = signingKey(new Uint8Array(32).fill(4))
const otherKey = { name: 'screedbook/other', publicKey: other.publicKey }
const text = 'screedbook/example\n1\nLeaf\n'

test('[L17] a note that was signed opens with its key and gives its text', async () => {
  const note = await signNote(text, noteKey, key.sign, sha256)
  expect(await openNote(toUtf8(note), [noteKey], senses)).toEqual({ ok: true, value: text })
})

test('[L18] a line of an unknown key is ignored, a wrong line of a known key refuses the note', async () => {
  const note = await signNote(text, noteKey, key.sign, sha256)
  const foreign = (await signNote(text, otherKey, other.sign, sha256)).split('\n').at(-2)
  expect((await openNote(toUtf8(`${note}${foreign}\n`), [noteKey], senses)).ok).toBe(true)
  expect(await openNote(toUtf8(note), [otherKey], senses)).toMatchObject({
    problem: { code: 'note-unsigned' },
  })
  const forged = note.replace('\n1\n', '\n2\n')
  expect(await openNote(toUtf8(forged), [noteKey], senses)).toMatchObject({
    problem: { code: 'note-signature' },
  })
})

test('[L17] a note with any one byte changed does not open', async () => {
  const note = toUtf8(await signNote(text, noteKey, key.sign, sha256))
  for (let i = 0; i < note.length; i++) {
    const damaged = note.map((b, j) => (i === j ? b ^ 1 : b))
    expect((await openNote(damaged, [noteKey], senses)).ok, `byte ${i}`).toBe(false)
  }
})

const malformed = [
  '',
  '\n',
  'text\n',
  'text\n\n',
  'text\n\n— name\n',
  'text\n\n— name AAAA\n',
  'te\u0007xt\n\n— name AAAAAAAA\n',
  'text\n\n— na me AAAAAAAA\n',
  'text\n\n— name AAAAAAAA',
]
test('[L17] what is out of form is refused by name', () => {
  for (const whole of malformed)
    expect(readNote(toUtf8(whole)), JSON.stringify(whole)).toMatchObject({
      problem: { code: 'note-malformed' },
    })
})

test('[L19] a verifier key reads back, and one with another id is refused', () => {
  const vkey = writeVerifierKey(noteKey, sha256)
  expect(readVerifierKey(vkey, sha256)).toEqual({ ok: true, value: noteKey })
  expect(readVerifierKey(vkey.replace('example', 'exemple'), sha256).ok).toBe(false)
})

test('[L17] OpenSSL accepts our signature over the note’s text', async () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'note-'))
  try {
    const note = readNote(toUtf8(await signNote(text, noteKey, key.sign, sha256)))
    if (!note.ok) throw new Error('not read')
    const spki = Buffer.concat([Buffer.from('302a300506032b6570032100', 'hex'), key.publicKey])
    writeFileSync(path.join(folder, 'key.der'), spki)
    writeFileSync(path.join(folder, 'text'), note.value.text)
    writeFileSync(path.join(folder, 'signature'), note.value.signatures[0]!.signature)
    const args = [
      'pkeyutl',
      '-verify',
      '-pubin',
      '-keyform',
      'DER',
      '-inkey',
      'key.der',
      '-rawin',
      '-in',
      'text',
      '-sigfile',
      'signature',
    ]
    expect(execFileSync('openssl', args, { cwd: folder, encoding: 'utf8' })).toContain(
      'Verified Successfully',
    )
  } finally {
    rmSync(folder, { recursive: true })
  }
})

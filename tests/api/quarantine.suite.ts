import { describe, expect, test } from 'vitest'
import { setAsideAnswer } from '../../api/contract/messages/set-aside.ts'
import { foldQuarantine } from '../../api/domain/access/quarantine.ts'
import { readEntry } from '../../api/domain/entry/read.ts'
import { canonicalJson } from '../../api/domain/log/bytes.ts'
import { readUtf8 } from '../../api/domain/log/encoding.ts'
import { sha256 } from '../../api/server/senses.ts'
import type { Stores } from '../../db/log-store/stores.ts'
import { readAnswer } from '../../web/sync/answer.ts'
import { syncRound } from '../../web/sync/round.ts'
import { entryText, hashOf, JOB, jpeg, LOAD, openSite, type Person, pushed, type Site } from './site.ts'

const remark = (site: Site, by: Person, text: string) =>
  entryText(site, by, { body: { remark: { lang: 'en', text } } })

/** Kinds and hashes of the log from a size on, in its order. */
const since = async (site: Site, size: number) =>
  (await site.stores.log.page(site.company, size, 500)).leaves.map(({ kind, entryHash }) => ({
    kind,
    hash: entryHash,
  }))

const decide = (site: Site, by: Person, device: string, entries: readonly string[], verdict: string) =>
  entryText(site, by, {
    kind: 'push.decided',
    job: site.company,
    body: { device, entries: [...entries].map(hashOf), verdict },
  })

const quarantineOf = async (site: Site) => {
  const leaves = await site.stores.log.thread(site.company, site.company)
  const entries = leaves.flatMap((leaf) => {
    const read = readEntry(leaf.bytes!, sha256)
    return read.ok && 'entry' in read.value ? [read.value] : []
  })
  return foldQuarantine(entries)
}

const list = async (by: Person, device: string, from = 0) => {
  const path = `/api/set-aside/${device}?from=${from}`
  const answer = readAnswer(await by.phone.wire({ method: 'GET', path }), setAsideAnswer)
  if (!answer.ok) throw new Error(answer.refused.code)
  return answer.value
}

/** Holds a house over any stores to SPEC L56. */
export const quarantineSuite = (stores: () => Promise<Stores>): void => {
  /** Beto logged once, then his phone was withdrawn. Curt's phone speaks by pushes of its own from here on. */
  const withdrawn = async (role: 'crew' | 'owner' = 'crew') => {
    const site = await openSite({ seed: 41, stores: await stores() })
    const beto = await site.hire('Beto', role)
    const lou = await site.hire('Lou', 'owner')
    const before = [remark(site, beto, 'before')]
    await pushed(beto, { entries: before })
    await site.owner.phone.log(site.company, 'device.withdrawn', { device: beto.identity.device })
    expect(await syncRound(site.owner.phone)).toMatchObject({ is: 'synced' })
    const said: string[] = []
    /** One more push of Lou's, an owner whose phone has pushed nothing else. */
    const decides = async (...entries: string[]) => {
      const { verdicts } = await pushed(lou, { before: said, entries })
      said.push(...entries)
      return verdicts
    }
    return { site, beto, lou, before, decides, device: beto.identity.device }
  }

  describe('[L56] what a withdrawn phone sent, until an owner decides', () => {
    test('[L56] admitted entries follow the decision at once, in the order of the device, and no others', async () => {
      const { site, beto, before, decides, device, lou } = await withdrawn()
      const entries = ['one', 'two', 'three'].map((text) => remark(site, beto, text))
      await pushed(beto, { before, entries: entries.slice(0, 2) })
      await pushed(beto, { before: [...before, ...entries.slice(0, 2)], entries: entries.slice(2) })
      const size = await site.size()
      const decision = decide(site, lou, device, [entries[2]!, entries[0]!], 'admitted')
      expect(await decides(decision)).toMatchObject([{ is: 'kept', position: size }])
      expect(await since(site, size)).toEqual([
        { kind: 'push.decided', hash: hashOf(decision) },
        { kind: 'remark.made', hash: hashOf(entries[0]!) },
        { kind: 'remark.made', hash: hashOf(entries[2]!) },
      ])
      expect(
        (await list(site.owner, device)).entries.map(({ hash, entry, is }) => ({ hash, entry, is })),
      ).toEqual(
        entries.map((entry, i) => ({ hash: hashOf(entry), entry, is: i === 1 ? 'waiting' : 'admitted' })),
      )
    })

    test('[L56] they count in the job’s figures from then on, and their author can be shown', async () => {
      const { site, beto, before, decides, device, lou } = await withdrawn()
      const arrived = entryText(site, beto, { kind: 'load.arrived', body: { load: LOAD } })
      await pushed(beto, { before, entries: [arrived] })
      const loads = async () => {
        const answer = await site.owner.phone.wire({ method: 'GET', path: `/api/jobs/${JOB}` })
        return JSON.parse(readUtf8(answer.body)!).model.loads.length
      }
      expect(await loads()).toBe(0)
      await decides(decide(site, lou, device, [arrived], 'admitted'))
      expect(await loads()).toBe(1)
      const [place] = await site.stores.log.deviceIndexOf(site.company, [hashOf(arrived)])
      expect(place).toMatchObject({ device, epoch: 1, index: 1 })
      const head = (await site.stores.log.heads(site.company)).filter((h) => h.device === device).at(-1)
      expect(head).toMatchObject({ size: 2, disputed: false })
      // The other phones take them like any others.
      expect(await syncRound(site.owner.phone)).toMatchObject({ is: 'synced', pull: { is: 'pulled' } })
    })

    test('[L56] declined entries stay out and stay kept, and may be admitted later', async () => {
      const { site, beto, before, decides, device, lou } = await withdrawn()
      const entry = remark(site, beto, 'one')
      await pushed(beto, { before, entries: [entry] })
      const size = await site.size()
      await decides(decide(site, lou, device, [entry], 'declined'))
      expect(await since(site, size)).toMatchObject([{ kind: 'push.decided' }])
      expect((await list(lou, device)).entries).toMatchObject([{ entry, is: 'declined' }])
      await decides(decide(site, lou, device, [entry], 'admitted'))
      expect(await since(site, size + 1)).toMatchObject([{ kind: 'push.decided' }, { hash: hashOf(entry) }])
      // What is in the log stays there.
      await decides(decide(site, lou, device, [entry], 'declined'))
      expect((await quarantineOf(site)).get(hashOf(entry))).toMatchObject({ is: 'admitted' })
    })

    test('[L56] the same decision again puts nothing in twice', async () => {
      const { site, beto, before, decides, device, lou } = await withdrawn()
      const entry = remark(site, beto, 'one')
      await pushed(beto, { before, entries: [entry] })
      await decides(decide(site, lou, device, [entry], 'admitted'))
      const size = await site.size()
      await decides(decide(site, lou, device, [entry], 'admitted'))
      expect(await since(site, size)).toMatchObject([{ kind: 'push.decided' }])
    })

    test('[L56] a decision that names what was not set aside from that phone is refused as a whole', async () => {
      const { site, beto, before, decides, device, lou } = await withdrawn()
      const [one, never] = [remark(site, beto, 'one'), remark(site, beto, 'never sent')]
      await pushed(beto, { before, entries: [one] })
      const refused = { is: 'refused', code: 'not-set-aside' }
      expect(
        await decides(
          decide(site, lou, device, [one, never], 'admitted'),
          decide(site, lou, lou.identity.device, [one], 'admitted'),
          decide(site, lou, device, before, 'declined'),
        ),
      ).toMatchObject([
        { ...refused, at: '/body/entries/1' },
        { ...refused, at: '/body/entries/0' },
        { ...refused, at: '/body/entries/0' },
      ])
      expect((await quarantineOf(site)).get(hashOf(one))).toMatchObject({ is: 'waiting' })
    })

    test('[L56] what the log can’t take is refused by its hash, and the others go in', async () => {
      const { site, beto, before, decides, device, lou } = await withdrawn('owner')
      const good = remark(site, beto, 'good')
      const taken = canonicalJson({ ...JSON.parse(remark(site, beto, 'x')), id: JSON.parse(before[0]!).id })
      const person = site.newId()
      const added = entryText(site, beto, {
        kind: 'person.added',
        job: site.company,
        body: { person, name: 'Nobody', role: 'owner' },
      })
      const entries = ['no entry', taken, added, good]
      await pushed(beto, { before, entries })
      const size = await site.size()
      await decides(decide(site, lou, device, entries, 'admitted'))
      expect((await since(site, size)).map(({ kind }) => kind)).toEqual([
        'push.decided',
        'entry.refused',
        'entry.refused',
        'entry.refused',
        'remark.made',
      ])
      const codes = new Map((await site.refusals()).map(({ hash, code }) => [hash, code]))
      expect(entries.map((entry) => codes.get(hashOf(entry)))).toEqual([
        'entry-not-json',
        'id-taken',
        'role-may-not',
        undefined,
      ])
      expect((await quarantineOf(site)).get(hashOf(taken))).toMatchObject({ is: 'refused' })
    })

    test('[L56] an entry whose place in the device’s log has a gap before it has no author to show, and stays out', async () => {
      const { site, beto, before, decides, device, lou } = await withdrawn()
      const [lost, late] = [remark(site, beto, 'lost'), remark(site, beto, 'late')]
      await pushed(beto, { before: [...before, lost], entries: [late] })
      const size = await site.size()
      await decides(decide(site, lou, device, [late], 'admitted'))
      expect(await since(site, size)).toMatchObject([{ kind: 'push.decided' }, { kind: 'entry.refused' }])
      expect((await site.refusals()).at(-1)).toMatchObject({ hash: hashOf(late), code: 'author-unknown' })
    })

    test('[L56] pushes that came out of order, and twice, are put in their places', async () => {
      const { site, beto, before, decides, device, lou } = await withdrawn()
      const entries = ['one', 'two', 'three'].map((text) => remark(site, beto, text))
      await pushed(beto, { before: [...before, entries[0]!, entries[1]!], entries: [entries[2]!] })
      await pushed(beto, { before: [...before, entries[0]!], entries: [entries[1]!] })
      await pushed(beto, { before, entries: [entries[0]!] })
      await pushed(beto, { before, entries })
      const size = await site.size()
      await decides(decide(site, lou, device, entries, 'admitted'))
      expect((await since(site, size)).slice(1).map(({ hash }) => hash)).toEqual(entries.map(hashOf))
    })

    test('[L56] of two histories that the phone signed, only the first can be admitted; the other is kept as evidence', async () => {
      const { site, beto, before, decides, device, lou } = await withdrawn()
      const [one, other] = [remark(site, beto, 'one'), remark(site, beto, 'other')]
      await pushed(beto, { before, entries: [one] })
      await pushed(beto, { before, entries: [other] })
      await decides(decide(site, lou, device, [one, other], 'admitted'))
      const quarantine = await quarantineOf(site)
      expect([one, other].map((entry) => quarantine.get(hashOf(entry))?.is)).toEqual(['admitted', 'refused'])
      const heads = (await site.stores.log.heads(site.company)).filter((h) => h.device === device)
      expect(heads.filter((h) => h.disputed)).toHaveLength(1)
    })

    test('[L56] what a newer program made can’t be admitted by an older server, and goes on waiting', async () => {
      const { site, beto, before, decides, device, lou } = await withdrawn()
      const newer = canonicalJson({ ...JSON.parse(remark(site, beto, 'x')), v: 99 })
      await pushed(beto, { before, entries: [newer] })
      expect(await decides(decide(site, lou, device, [newer], 'admitted'))).toMatchObject([
        { is: 'refused', code: 'protocol-newer', at: '/body/entries/0' },
      ])
      expect((await quarantineOf(site)).get(hashOf(newer))).toEqual({ device, is: 'waiting' })
    })

    test('[L56] a photo that an admitted entry names is said to have arrived where it is there', async () => {
      const { site, beto, before, decides, device, lou } = await withdrawn()
      const bytes = jpeg(64)
      const photo = hashBytes(bytes)
      await lou.phone.wire({
        method: 'PUT',
        path: `/api/photos/${photo}`,
        body: bytes,
        headers: { 'upload-offset': '0', 'upload-length': '64' },
      })
      const taken = entryText(site, beto, {
        kind: 'photo.taken',
        body: { photo, bytes: 64, type: 'image/jpeg', shows: 'ticket' },
        evidence: [photo],
      })
      await pushed(beto, { before, entries: [taken] })
      const size = await site.size()
      await decides(decide(site, lou, device, [taken], 'admitted'))
      expect((await since(site, size)).map(({ kind }) => kind)).toEqual([
        'push.decided',
        'photo.taken',
        'photo.received',
      ])
    })

    test('[L56] two hundred in one push are noted by two entries, and the list comes in pages', async () => {
      const { site, beto, before, device, lou } = await withdrawn()
      const entries = Array.from({ length: 200 }, (_, i) => remark(site, beto, `remark ${i}`))
      const size = await site.size()
      await pushed(beto, { before, entries })
      expect((await since(site, size)).map(({ kind }) => kind)).toEqual([
        'push.quarantined',
        'push.quarantined',
      ])
      const first = await list(lou, device)
      const second = await list(lou, device, 100)
      expect([first.more, second.more]).toEqual([true, false])
      const all = [...first.entries, ...second.entries].map(({ entry }) => entry)
      expect(all.sort()).toEqual([...entries].sort())
      const path = `/api/set-aside/${LOAD}`
      expect((await lou.phone.wire({ method: 'GET', path })).status).toBe(404)
    })
  })
}

const hashBytes = (bytes: Uint8Array): string => Buffer.from(sha256(bytes)).toString('hex')

import { readFile } from 'node:fs/promises'
import { setTimeout as sleep } from 'node:timers/promises'
import { invited } from '../../api/contract/messages/enrol.ts'
import { uuidV7 } from '../../api/domain/entry/make.ts'
import { hashEntry } from '../../api/domain/entry/read.ts'
import { toUtf8 } from '../../api/domain/log/encoding.ts'
import { random, sha256 } from '../../api/server/senses.ts'
import { readAnswer } from '../../web/sync/answer.ts'
import { getMeta, type LogLeaf, type OwnEntry } from '../../web/sync/kept.ts'
import { syncRound } from '../../web/sync/round.ts'
import { jsonBody } from '../../web/sync/sign-in.ts'
import { WireDown } from '../../web/sync/wire.ts'
import { type Chance, createChance } from '../kit/chance.ts'
import { createPhone, createWire, type Phone } from '../kit/phone.ts'
import type { RunningServer } from '../kit/server.ts'

/** What is under test: one server or two on one database, and how to kill and bring back each part. */
export type Victims = {
  /** Where the phones send; each phone keeps to one, and goes to the next where that one is down. */
  readonly servers: RunningServer[]
  /** Process id of the database's postmaster, where it may be killed too. */
  readonly postmaster: () => Promise<number | undefined>
  readonly restart: (index: number) => Promise<RunningServer>
}

export type KillReport = {
  readonly kills: number
  readonly killedDatabase: number
  readonly entries: number
  readonly broken: readonly string[]
}

const PHONES = 4
const names = ['Curt', 'Marisol', 'Beto', 'Wade']

/** Four phones log and push without a pause while servers or the database are killed; then everything is compared. */
export const killRun = async (victims: Victims, kills: number, seed: number): Promise<KillReport> => {
  const chance = createChance(seed)
  const phones = await enrolFour(victims, chance)
  const job = uuidV7(Date.now(), random)
  await phones[0]!.log(job, 'job.opened', { name: 'Tern Court', zone: 'America/Chicago' })
  let stop = false
  let killedDatabase = 0
  const said: Set<string>[] = phones.map(() => new Set())
  const working = phones.map(async (phone, i) => {
    while (!stop) {
      for (let n = 1 + chance.below(5); n > 0; n--)
        said[i]!.add(
          await phone.log(job, 'remark.made', {
            remark: { lang: 'en', text: `${names[i]} ${said[i]!.size}` },
          }),
        )
      await syncRound(phone)
      await sleep(chance.below(20))
    }
  })
  for (let kill = 0; kill < kills; kill++) {
    await sleep(30 + chance.below(400))
    const postmaster = chance.chance(0.4) ? await victims.postmaster() : undefined
    if (postmaster !== undefined) {
      process.kill(postmaster, 'SIGKILL')
      killedDatabase++
    } else {
      const index = chance.below(victims.servers.length)
      await victims.servers[index]!.kill()
      victims.servers[index] = await victims.restart(index)
    }
    await untilServed(phones[0]!).catch((error: Error) => {
      const said = victims.servers.map(
        (s) => `exit ${s.process.exitCode ?? s.process.signalCode}: ${s.printed().slice(-3000)}`,
      )
      throw new Error(
        `after kill ${kill} (${postmaster === undefined ? 'server' : 'database'}): ${error.message}\n${said.join('\n')}`,
      )
    })
  }
  stop = true
  await Promise.all(working)
  const broken = await compare(phones, said)
  return { kills, killedDatabase, entries: said.reduce((all, one) => all + one.size, 0), broken }
}

/** Waits until a phone gets through again, so that each kill meets a working house. */
const untilServed = async (phone: Phone): Promise<void> => {
  const deadline = Date.now() + 60_000
  for (;;) {
    const round = await syncRound(phone)
    if (round.is === 'synced') return
    if (Date.now() > deadline) throw new Error(`the house did not come back: ${JSON.stringify(round)}`)
    await sleep(100)
  }
}

const enrolFour = async (victims: Victims, chance: Chance): Promise<Phone[]> => {
  const wire = () =>
    createWire(async (request) => {
      const body = request.body ? new Uint8Array(await request.arrayBuffer()) : undefined
      const path = request.url.replace('http://house.test', '')
      const { url } = chance.pick(victims.servers)
      try {
        const init = { method: request.method, headers: request.headers, signal: AbortSignal.timeout(20_000) }
        const response = await fetch(url + path, body ? { ...init, body } : init)
        return new Response(await response.arrayBuffer(), response)
      } catch {
        throw new WireDown('no answer')
      }
    })
  const phones = Array.from({ length: PHONES }, () =>
    createPhone({ chance: { ...chance, bytes: random }, now: Date.now, wire: wire() }),
  )
  const [owner, ...others] = phones as [Phone, ...Phone[]]
  // Each start without a company prints a new link, and the last one counts.
  await owner.setUp(victims.servers.at(-1)!.setUpLink!.split('#')[1]!)
  const { company } = (await owner.store.transact((tx) => getMeta(tx, 'identity')))!
  for (const [i, phone] of others.entries()) {
    const person = uuidV7(Date.now(), random)
    await owner.log(company, 'person.added', { person, name: names[i + 1]!, role: 'crew' })
    await syncRound(owner)
    const answer = await owner.wire({
      method: 'POST',
      path: '/api/invite',
      ...jsonBody({ person, use: 'phone' }),
    })
    const code = readAnswer(answer, invited)
    if (!code.ok) throw new Error(code.refused.code)
    await phone.join(code.value.code)
  }
  return phones
}

const compare = async (phones: readonly Phone[], said: readonly ReadonlySet<string>[]): Promise<string[]> => {
  const broken: string[] = []
  for (let rest = 0; rest < 3; rest++) for (const phone of phones) await untilServed(phone)
  const logs = await Promise.all(phones.map((phone) => phone.store.transact((tx) => tx.list<LogLeaf>('log'))))
  const [first] = logs
  const hashes = first!.map((leaf) => leaf.hash)
  if (new Set(hashes).size !== hashes.length) broken.push('an entry stands twice in the log')
  for (const log of logs)
    if (JSON.stringify(log) !== JSON.stringify(first)) broken.push('two phones hold different logs')
  for (const leaf of first!)
    if (leaf.text === null || hashEntry(toUtf8(leaf.text), sha256) !== leaf.hash)
      broken.push('an entry was altered')
  for (const [i, phone] of phones.entries()) {
    const { own, evidence } = await phone.store.transact(async (tx) => ({
      own: await tx.list<OwnEntry>('own'),
      evidence: await getMeta(tx, 'evidence'),
    }))
    const inLog = new Map(first!.map((leaf) => [leaf.hash, leaf]))
    for (const entry of own) {
      if (entry.state.is !== 'kept' || !entry.state.landed)
        broken.push(`${names[i]}: an entry is ${JSON.stringify(entry.state)}`)
      if (inLog.get(entry.hash)?.text !== entry.text)
        broken.push(`${names[i]}: an acknowledged entry is not in the log as it was`)
    }
    for (const hash of said[i]!)
      if (!inLog.has(hash)) broken.push(`${names[i]}: said ${hash}, and it is lost`)
    if (evidence?.length) broken.push(`${names[i]} has evidence: ${evidence[0]!.code}`)
  }
  return broken
}

/** The postmaster that runs in this data folder, by its pid file. */
export const postmasterOf = async (dataFolder: string): Promise<number | undefined> => {
  const file = `${dataFolder}/postgres/cluster/data/postmaster.pid`
  const pid = Number.parseInt((await readFile(file, 'utf8').catch(() => '')).split('\n')[0] ?? '', 10)
  return Number.isNaN(pid) ? undefined : pid
}

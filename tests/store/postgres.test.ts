import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import { type Clients, openClients } from '../../db/connect/clients.ts'
import { checkDurable } from '../../db/connect/durable.ts'
import { runMigrations } from '../../db/connect/migrate.ts'
import { openClient } from '../../db/connect/target.ts'
import { CommitUnknown } from '../../db/log-store/log-store.ts'
import { createPostgresStore } from '../../db/log-store/postgres.ts'
import { openTestDatabase, type TestDatabase, walSyncs } from '../kit/postgres.ts'
import { createCuttingProxy } from './cutting-proxy.ts'
import { createPen } from './pen.ts'
import { storeSuite } from './store-suite.ts'
import { aMoment, appendTo, gate, newCompany } from './suite/company.ts'

type Store = ReturnType<typeof createPostgresStore>

let database: TestDatabase
let proxy: Awaited<ReturnType<typeof createCuttingProxy>>
let clients: Clients
/** Behind the proxy, and straight. */
let store: Store
let direct: Store

beforeAll(async () => {
  database = await openTestDatabase()
  proxy = await createCuttingProxy(database.target)
  clients = openClients(proxy.target)
  store = createPostgresStore(clients)
  direct = createPostgresStore(database.clients)
}, 60_000)

afterAll(async () => {
  await store.end()
  await direct.end()
  await clients.end()
  await proxy.close()
  await database.close()
}, 60_000)

storeSuite(() => ({ stores: store, elsewhere: direct, breakNextCommit: (outcome) => proxy.arm(outcome) }))

describe('on PostgreSQL alone', () => {
  /** Ends the sessions that are in a transaction, as an administrator or a failover would. */
  const endTransactions = () => database.clients.raw`
    select pg_terminate_backend(pid, 5000) from pg_stat_activity
    where datname = current_database() and state = 'idle in transaction'`

  test('[lost connection] a session ended in the middle of a transaction leaves nothing, and no later step runs by itself', async () => {
    const { company, pen } = await newCompany(direct.log)
    const one = pen.append('a')
    const later = createPen(pen.state()).append('b')
    const failing = direct.log.transact(company, async (tx) => {
      await tx.append(one)
      await endTransactions()
      // Whatever the function makes of it, nothing may reach the database outside of a transaction.
      await tx.append(later).catch(() => {})
      await aMoment()
      await tx.append(later).catch(() => {})
    })
    const cause = await failing.catch((error: unknown) => error)
    expect(cause).toBeInstanceOf(Error)
    expect(cause).not.toBeInstanceOf(CommitUnknown)
    expect(await database.clients.raw`select position from leaves where company = ${company}`).toHaveLength(0)
    expect((await direct.log.company(company))?.frontier.size).toBe(0)
    await appendTo(direct.log, company, one)
    expect((await direct.log.company(company))?.frontier.size).toBe(1)
  })

  test('[lost connection] a connection lost before the commit is sent is no unknown commit', async () => {
    const { company, pen } = await newCompany(direct.log)
    const failing = direct.log.transact(company, async (tx) => {
      await tx.append(pen.append('a'))
      await endTransactions()
      await aMoment()
    })
    const cause = await failing.catch((error: unknown) => error)
    expect(cause).not.toBeInstanceOf(CommitUnknown)
    expect((await direct.log.company(company))?.frontier.size).toBe(0)
  })

  test('[lost connection] connections that died while they lay idle are opened again unseen', async () => {
    const made = await newCompany(store.log)
    proxy.cutAll()
    await appendTo(store.log, made.company, made.pen.append('a'))
    expect((await direct.log.company(made.company))?.frontier.size).toBe(1)
  })

  test('[lost connection] a wire that breaks in the middle of a statement fails the transaction and holds up nobody', async () => {
    const { company, pen } = await newCompany(store.log)
    const cut = pen.append(...Array.from({ length: 3000 }, (_, i) => `entry ${i}`))
    const failing = store.log.transact(company, async (tx) => {
      setTimeout(proxy.cutAll, 20)
      await tx.append(cut)
      await aMoment()
    })
    const cause = await failing.catch((error: unknown) => error)
    expect(cause).toBeInstanceOf(Error)
    expect(cause).not.toBeInstanceOf(CommitUnknown)
    await appendTo(store.log, company, createPen().append('a'))
    expect((await direct.log.company(company))?.frontier.size).toBe(1)
  })

  test('[lost connection] a statement sent on a wire that broke a moment ago fails, and so does what follows it', async () => {
    const { company, pen } = await newCompany(store.log)
    const rows = pen.append('a')
    const failing = store.log.transact(company, async (tx) => {
      await tx.company()
      proxy.cutAll()
      await tx.append(rows)
    })
    const cause = await failing.catch((error: unknown) => error)
    expect(cause).toBeInstanceOf(Error)
    expect(cause).not.toBeInstanceOf(CommitUnknown)
    await appendTo(store.log, company, rows)
    expect((await direct.log.company(company))?.frontier.size).toBe(1)
  })

  test('[commit unknown] an administrator who ends the session during the commit leaves it unknown', async () => {
    const { company, pen } = await newCompany(direct.log)
    // A deferred trigger holds the COMMIT up, so that it can be ended in the middle.
    const { raw } = database.clients
    await raw.unsafe(`
      create function hold() returns trigger language plpgsql as 'begin perform pg_sleep(20); return null; end';
      create constraint trigger hold after insert on leaves initially deferred for each row
        when (new.company = '${company}') execute function hold();`)
    const failing = appendTo(direct.log, company, pen.append('a')).catch((error: unknown) => error)
    await vi.waitFor(async () => {
      const ended = await raw`
        select pg_terminate_backend(pid, 5000) from pg_stat_activity
        where datname = current_database() and query = 'commit' and wait_event = 'PgSleep'`
      expect(ended).toHaveLength(1)
    })
    expect(await failing).toBeInstanceOf(CommitUnknown)
    await raw.unsafe('drop trigger hold on leaves; drop function hold()')
  })

  test('[refused] a commit that PostgreSQL refuses is an ordinary failure and leaves nothing', async () => {
    const { company, pen } = await newCompany(direct.log)
    const { raw } = database.clients
    await raw.unsafe(`
      create function refuse() returns trigger language plpgsql as 'begin raise exception ''refused''; end';
      create constraint trigger refuse after insert on leaves initially deferred for each row
        when (new.company = '${company}') execute function refuse();`)
    const cause = await appendTo(direct.log, company, pen.append('a')).catch((error: unknown) => error)
    await raw.unsafe('drop trigger refuse on leaves; drop function refuse()')
    expect(cause).not.toBeInstanceOf(CommitUnknown)
    expect(String(cause)).toContain('refused')
    expect((await direct.log.company(company))?.frontier.size).toBe(0)
  })

  test('[durable] each commit syncs the write-ahead log', async () => {
    const { company, pen } = await newCompany(direct.log)
    const settle = () => new Promise((resolve) => setTimeout(resolve, 1200))
    const { raw } = database.clients
    await settle()
    await appendTo(direct.log, company, pen.append('first'))
    await settle()
    const before = await walSyncs(raw)
    for (let i = 0; i < 20; i++) await appendTo(direct.log, company, pen.append(`entry ${i}`))
    await settle()
    // The last of a session is told with its next transaction.
    await appendTo(direct.log, company, pen.append('last'))
    expect((await walSyncs(raw)) - before).toBeGreaterThanOrEqual(20)
  }, 15_000)

  test('[news] after the listening connection broke, it listens again and names each company once', async () => {
    const { company, pen } = await newCompany(direct.log)
    const told: string[] = []
    const stop = await store.log.onCommit((name) => void told.push(name))
    await aMoment()
    told.length = 0
    proxy.cutAll()
    // Said while nobody listened, or after: either way it is heard of.
    await appendTo(direct.log, company, pen.append('a'))
    await vi.waitFor(() => expect(told).toContain(company), 5000)
    told.length = 0
    await appendTo(direct.log, company, pen.append('b'))
    await vi.waitFor(() => expect(told).toContain(company), 5000)
    await stop()
  })

  test('[alone] more companies at once than there are connections wait their turn and all get through', async () => {
    const made = await Promise.all(Array.from({ length: 25 }, () => newCompany(direct.log)))
    const { open, opened } = gate()
    const running = made.map(({ company, pen }) =>
      direct.log.transact(company, async (tx) => {
        await opened
        await tx.append(pen.append('a'))
      }),
    )
    await aMoment()
    open()
    await Promise.all(running)
    const sizes = await Promise.all(made.map(({ company }) => direct.log.company(company)))
    expect(sizes.every((row) => row?.frontier.size === 1)).toBe(true)
  })

  test('[large] an append of ten thousand leaves is taken in one transaction', async () => {
    const { company, pen } = await newCompany(direct.log)
    const names = Array.from({ length: 10_000 }, (_, i) => `entry ${i}`)
    await appendTo(direct.log, company, pen.append(...names))
    expect((await direct.log.leafHashes(company, 20_000)).length).toBe(10_000)
    const ids = createPen()
      .append(...names)
      .leaves.map((leaf) => leaf.id)
    expect(await direct.log.transact(company, (tx) => tx.byIds(ids))).toHaveLength(10_000)
  }, 30_000)

  test('[migrations] processes that start at once bring an empty database up to date together', async () => {
    const { raw } = database.clients
    await raw`create database ${raw(`${database.target.database}_new`)}`
    const fresh = { ...database.target, database: `${database.target.database}_new` }
    await Promise.all(Array.from({ length: 5 }, () => runMigrations(fresh)))
    const client = openClient(fresh, { max: 1 })
    expect(await client`select count(*)::int as n from companies`).toEqual([{ n: 0 }])
    await client.end()
  })

  test('[durable] a database whose settings may forget a commit is refused, by the setting’s name', async () => {
    const { raw } = database.clients
    expect(await checkDurable(raw)).toEqual({ ok: true, value: undefined })
    for (const setting of ['fsync', 'full_page_writes', 'synchronous_commit']) {
      const client = openClient(database.target, { max: 1 })
      // Two of the three can't be set for a session: a view stands before the real one.
      await client.unsafe(`
        create temporary view pg_settings as
          select name, case name when '${setting}' then 'off' else setting end as setting from pg_catalog.pg_settings;
        set search_path = pg_temp, pg_catalog`)
      const checked = await checkDurable(client)
      await client.end()
      expect(checked).toMatchObject({
        ok: false,
        problem: { code: 'database-not-durable', at: setting, evidence: { setting, value: 'off' } },
      })
    }
    for (const level of ['local', 'remote_write', 'remote_apply']) {
      const client = openClient(database.target, { max: 1, connection: { synchronous_commit: level } })
      expect((await checkDurable(client)).ok).toBe(true)
      await client.end()
    }
  })
})

/** A plausible mistake, as edits of the product's text: each `from` stands in the file exactly once. */
export type Mutant = {
  readonly name: string
  readonly file: string
  readonly edits: readonly (readonly [from: string, to: string])[]
  /** The promise that it breaks. */
  readonly breaks: string
}

/**
 * Mistakes that somebody might make in sync, log and sequencer. None of them is in the product's source: the runner
 * makes them in a copy. A simulator that does not find one of these is not to be believed about others.
 */
export const MUTANTS: readonly Mutant[] = [
  // The phone: between write and flush
  {
    name: 'kept is said before it is durable',
    file: 'web/sync/log-entry.ts',
    edits: [
      [
        '  return world.store.transact(async (tx) => {',
        '  return new Promise((said, failed) => world.store.transact(async (tx) => {',
      ],
      [
        "    const log = (await getMeta(tx, 'device-log')) ?? FIRST_DEVICE_LOG\n",
        "    said(hash)\n    const log = (await getMeta(tx, 'device-log')) ?? FIRST_DEVICE_LOG\n",
      ],
      ['    return hash\n  })\n', '    return hash\n  }).catch(failed))\n'],
    ],
    breaks: 'what a phone calls kept survives the battery being pulled',
  },
  {
    name: 'the device log moves on in a transaction of its own',
    file: 'web/sync/log-entry.ts',
    edits: [
      [
        '  return world.store.transact(async (tx) => {',
        '  const kept = await world.store.transact(async (tx) => {',
      ],
      [
        "    await putMeta(tx, 'device-log', { ...log, whole: append(log.whole, readHex(hash)!, world.sha256) })\n    return hash\n  })\n",
        "    return { hash, log }\n  })\n  await world.store.transact((tx) => putMeta(tx, 'device-log', { ...kept.log, whole: append(kept.log.whole, readHex(kept.hash)!, world.sha256) }))\n  return kept.hash\n",
      ],
    ],
    breaks: 'two entries never take one place in the device log',
  },
  {
    name: 'the verified root is written after the leaves',
    file: 'web/sync/pull.ts',
    edits: [
      ["  await putMeta(tx, 'company-log', { frontier: stretch.frontier, note })\n", ''],
      [
        "  return { is: 'pulled', leaves",
        "  await world.store.transact((tx) => putMeta(tx, 'company-log', { frontier: stretch.frontier, note: checkpoint }))\n  return { is: 'pulled', leaves",
      ],
    ],
    breaks: 'a phone whose power fails in mid-pull holds no half of a stretch',
  },
  {
    name: 'the phone pulls over what another tab has pulled',
    file: 'web/sync/pull.ts',
    edits: [['  if (now.size !== from.size) return undefined\n', '']],
    breaks: 'two tabs on one store take each stretch once',
  },
  // The phone: what an answer means
  {
    name: 'a later answer undoes an acknowledgement',
    file: 'web/sync/push.ts',
    edits: [["  if (own.state.is === 'kept' && (own.state.landed || verdict.is !== 'kept')) return\n", '']],
    breaks: 'what has landed in the verified log outranks any later answer',
  },
  {
    name: 'only what was acknowledged can land',
    file: 'web/sync/pull.ts',
    edits: [['    if (leaf) await putOwn(', "    if (leaf && entry.state.is === 'kept') await putOwn("]],
    breaks: 'an entry whose answer was lost is kept as soon as the log shows it',
  },
  {
    name: 'a gap is not mended',
    file: 'web/sync/push.ts',
    edits: [
      [
        "if (refused.code === 'push-gap' && refused.next !== undefined && refused.next < log.answered.size) {",
        'if (refused.next === -1) {',
      ],
    ],
    breaks: 'a server that was put back gets again what it lost',
  },
  {
    name: 'after a fork the old epoch keeps its copies',
    file: 'web/sync/push.ts',
    edits: [["    await tx.delete('own', ownKey(own.epoch, own.index))\n", '']],
    breaks: 'an entry is kept once, in the epoch in which it is pushed',
  },
  {
    name: 'after a fork the entries keep their old places',
    file: 'web/sync/push.ts',
    edits: [
      [
        "await putOwn(tx, { ...own, epoch, index, state: { is: 'waiting' } })",
        "await putOwn(tx, { ...own, epoch, state: { is: 'waiting' } })",
      ],
    ],
    breaks: 'a new epoch begins at its first place',
  },
  {
    name: 'after a fork nothing is logged again',
    file: 'web/sync/push.ts',
    edits: [
      [
        "  const open = all.filter((own) => own.state.is !== 'kept' && own.state.is !== 'refused')",
        '  const open = all.slice(0, 0)',
      ],
    ],
    breaks: 'what two copies of a phone logged is all taken',
  },
  {
    name: 'the phone does not show what it has seen',
    file: 'web/sync/push.ts',
    edits: [
      ['  const seen = verified?.frontier ?? EMPTY_FRONTIER\n', '  const seen = EMPTY_FRONTIER\n'],
      ["seenNote: verified?.note ?? '' }", "seenNote: '' }"],
    ],
    breaks: 'a server that shows two histories, or was put back, is found out',
  },
  {
    name: 'a contradiction leaves no evidence',
    file: 'web/sync/push.ts',
    edits: [
      [
        "if (refused.code === 'log-contradicted' || refused.code === 'log-stopped')",
        "if (refused.code === 'log-stopped' && log.epoch > 9)",
      ],
    ],
    breaks: 'a phone that is shown another history keeps the signed notes',
  },
  {
    name: 'a phone with nothing to push keeps its doubts to itself',
    file: 'web/sync/round.ts',
    edits: [
      [
        "pulled.is === 'does-not-hold' && pushed.is !== 'stopped'",
        "pulled.is === 'does-not-hold' && pushed.is === 'stopped'",
      ],
    ],
    breaks: 'a restored server hears of its later checkpoint from whoever has it',
  },
  {
    name: 'what was acknowledged and lost is not sent again',
    file: 'web/sync/send-again.ts',
    edits: [['  await goBackTo(tx, world, log, first.index)\n  return true\n', '  return true\n']],
    breaks: 'nothing acknowledged is lost while a phone still has it',
  },
  {
    name: 'entries that wait for a newer server wait for ever',
    file: 'web/sync/send-again.ts',
    edits: [
      [
        "own.state.is === 'waits-for-server')\n    if (!first) return\n",
        "own.state.is === 'set-aside')\n    if (!first) return\n",
      ],
    ],
    breaks: 'a newer v is "will try again", never a refusal',
  },
  {
    name: 'a session that is gone is not opened again',
    file: 'web/sync/answer.ts',
    edits: [['  return (await signIn(world)) ? world.wire(request) : answer\n', '  return answer\n']],
    breaks: 'a phone gets back in by its key alone',
  },
  // The phone: what it believes
  {
    name: 'leaves need not lead to the signed root',
    file: 'web/sync/verify-stretch.ts',
    edits: [
      [
        '  if (!equalBytes(head.value.root, rootOf(frontier, world.sha256)))',
        '  if (leaves.length === 0 && !equalBytes(head.value.root, rootOf(frontier, world.sha256)))',
      ],
    ],
    breaks: 'a phone believes only what leads to a signed checkpoint',
  },
  {
    name: 'an entry need not be the one of its leaf',
    file: 'web/sync/verify-stretch.ts',
    edits: [
      [
        'hashEntry(toUtf8(pulled.entry), world.sha256) !== hash) return undefined',
        "hashEntry(toUtf8(pulled.entry), world.sha256) === '') return undefined",
      ],
    ],
    breaks: 'an entry that was altered on its way is not taken',
  },
  {
    name: 'a note under any name is signed',
    file: 'api/domain/log/note.ts',
    edits: [
      [
        "  return signed ? ok(note.value.text) : fail('note-unsigned')",
        "  return signed || keys.length > 0 ? ok(note.value.text) : fail('note-unsigned')",
      ],
    ],
    breaks: 'a checkpoint is believed by the log’s key and nothing else',
  },
  {
    name: 'a signature that does not hold is passed over',
    file: 'api/domain/log/note.ts',
    edits: [
      [
        "    if (!holds) return fail('note-signature', line.name)\n",
        "    if (!holds && line.signature.length !== 64) return fail('note-signature', line.name)\n",
      ],
    ],
    breaks: 'a checkpoint is believed by the log’s key and nothing else',
  },
  // Photos
  {
    name: 'a photo is sent once the server holds its bytes',
    file: 'web/sync/photos.ts',
    edits: [
      [
        '    let going = offset <= photo.bytes\n',
        "    if (offset === photo.bytes) {\n      await markPhoto(world, photo.hash, { sent: true })\n      return 'sent'\n    }\n    let going = offset <= photo.bytes\n",
      ],
    ],
    breaks: 'a photo is called sent only when the log knows it',
  },
  {
    name: 'a photo that came before its entry is not said to have come',
    file: 'api/server/log/take-push.ts',
    edits: [
      [
        "  if (entry.entry.kind === 'photo.taken') await sayPhotoReceived(draft, entry.entry.body.photo)\n",
        '',
      ],
    ],
    breaks: 'every job that names a photo says that it arrived',
  },
  {
    name: 'an arrival is said each time that it is asked about',
    file: 'api/server/log/photo-arrival.ts',
    edits: [['    if (!said.has(job)) await', '    if (said.size < 99) await']],
    breaks: 'what the server says by itself, it says once',
  },
  // The server: between commit and answer
  {
    name: 'an entry is acknowledged before the commit',
    file: 'api/server/log/sequencer.ts',
    edits: [
      [
        '      for (const { work } of batch) values.push(await work(draft))\n',
        '      for (const { work, done } of batch) {\n        const value = await work(draft)\n        values.push(value)\n        done(value)\n      }\n',
      ],
    ],
    breaks: 'kept is answered only after the commit (L46)',
  },
  {
    name: 'the process remembers what it failed to commit',
    file: 'api/server/log/sequencer.ts',
    edits: [
      [
        '      await draft.finish()\n',
        '      states.set(company, draft.state())\n      await draft.finish()\n',
      ],
    ],
    breaks: 'who may do what is read from what was committed',
  },
  {
    name: 'a process does not look at what another has committed',
    file: 'api/server/log/sequencer.ts',
    edits: [
      [
        '      states.get(company) ?? NO_STATE,\n      company,\n      (job, after) => tx.threadLeaves(job, after),',
        '      states.get(company) ?? NO_STATE,\n      company,\n      async (job, after) => (after > 0 ? [] : tx.threadLeaves(job, after)),',
      ],
    ],
    breaks: 'any number of processes may serve one company',
  },
  {
    name: 'a commit of unknown outcome is taken for made',
    file: 'api/server/log/sequencer.ts',
    edits: [
      ['  const together = async (\n', '  let worked: unknown[] = []\n  const together = async (\n'],
      ['      await draft.finish()\n', '      worked = values\n      await draft.finish()\n'],
      [
        '        if (!(error instanceof CommitUnknown) || tries === MOST_TRIES) throw error\n',
        '        if (!(error instanceof CommitUnknown) || tries === MOST_TRIES) throw error\n        return worked\n',
      ],
    ],
    breaks: 'after a commit whose outcome is unknown the head is read again before any answer',
  },
  // The server: what a push may do
  {
    name: 'the same entry again is another entry',
    file: 'api/server/log/take-push.ts',
    edits: [
      [
        "  const position = await draft.positionOf(pushed.hash)\n  if (position !== undefined) return { is: 'kept', position }\n  if (!pushed.read.ok)",
        '  if (!pushed.read.ok)',
      ],
    ],
    breaks: 'the same bytes again get the same answer (L45)',
  },
  {
    name: 'an id may be taken twice',
    file: 'api/server/log/take-push.ts',
    edits: [
      [
        "  if (holder !== undefined) return refuse(draft, device, pushed.hash, { code: 'id-taken', at: '/id' })\n",
        "  if (holder === pushed.hash) return refuse(draft, device, pushed.hash, { code: 'id-taken', at: '/id' })\n",
      ],
    ],
    breaks: 'another entry under an id that the log knows is refused and noted (L45)',
  },
  {
    name: 'a newer v is refused',
    file: 'api/server/log/take-push.ts',
    edits: [
      [
        "  if (isUnread(pushed.read.value)) return { is: 'waits-for-server' }\n",
        "  if (isUnread(pushed.read.value))\n    return refuse(draft, device, pushed.hash, { code: 'kind-unknown', at: '/kind' })\n",
      ],
    ],
    breaks: 'a newer v is "will try again", never a refusal',
  },
  {
    name: 'a checkpoint is held to the size alone',
    file: 'api/server/log/take-push.ts',
    edits: [
      ['  if (checkpoint.size > draft.size()) return false\n', '  return checkpoint.size <= draft.size()\n'],
    ],
    breaks: 'a server that shows two histories is found out (L49)',
  },
  {
    name: 'a contradiction is answered, and the log goes on',
    file: 'api/server/log/take-push.ts',
    edits: [["      draft.stop('log-contradicted', push.seen.note)\n", '']],
    breaks: 'a server that was put back stops taking entries (L49)',
  },
  {
    name: 'a stopped log goes on',
    file: 'api/server/log/take-push.ts',
    edits: [["    if (draft.isStopped()) return { ok: false, code: 'log-stopped' }\n", '']],
    breaks: 'a log that has stopped takes nothing more (L49)',
  },
  {
    name: 'a withdrawn device is like any other',
    file: 'api/server/log/take-push.ts',
    edits: [['    if (from.withdrawn) {\n', "    if (from.withdrawn && from.use === 'server') {\n"]],
    breaks: 'what a withdrawn device sends stands outside the log',
  },
  {
    name: 'what was kept before a withdrawal is answered as set aside',
    file: 'api/server/log/take-push.ts',
    edits: [
      [
        "verdicts.push(position === undefined ? { is: 'set-aside' } : { is: 'kept', position })",
        "verdicts.push(position === undefined || position >= 0 ? { is: 'set-aside' } : { is: 'kept', position })",
      ],
    ],
    breaks: 'the same bytes again get the same answer (L45)',
  },
  {
    name: 'a refusal is noted each time',
    file: 'api/server/log/refuse.ts',
    edits: [['if (!draft.state().refused.has(hash))', 'if (draft.size() > 0)']],
    breaks: 'what the server says by itself, it says once (L31)',
  },
  {
    name: 'a fork is not seen',
    file: 'api/server/log/place.ts',
    edits: [['stored.some((hash, i) => hash !== hashes[i])', 'stored.length > 999']],
    breaks: 'other bytes than before at an index are a fork (L47)',
  },
  {
    name: 'the head that shows a fork is thrown away',
    file: 'api/server/log/place.ts',
    edits: [
      [
        '  draft.addHead({ device, epoch: push.epoch, size, root, note: push.headNote, disputed: true })\n',
        '',
      ],
    ],
    breaks: 'both heads of a copied phone are kept (L25)',
  },
  {
    name: 'a head that does not fit its entries is taken',
    file: 'api/server/log/place.ts',
    edits: [
      [
        "if (!equalBytes(rootOf(end, senses.sha256), push.head.root)) return { ok: false, code: 'head-differs' }",
        '',
      ],
    ],
    breaks: 'a head that does not fit its entries changes nothing (L47)',
  },
  // Proofs
  {
    name: 'a consistency proof splits a whole subtree once too often',
    file: 'api/domain/log/proof.ts',
    edits: [['    return m <= k\n', '    return m < k\n']],
    breaks: 'whoever holds a slip is shown that the log extends it (L34, L36)',
  },
]

import type { Role } from '../../entry/role.ts'
import type { RecordKey } from '../../words/record-en.ts'
import type { DeviceModel, RecordModel, SetAsideModel } from '../model.ts'
import type { Block } from './blocks.ts'
import { oddReceipts } from './delays.ts'
import { runsText } from './runs.ts'
import type { Speech } from './speech.ts'

const ROLE_WORDS: Readonly<Record<Role, RecordKey>> = {
  owner: 'recRoleOwner',
  foreman: 'recRoleForeman',
  crew: 'recRoleCrew',
  office: 'recRoleOffice',
}

/** A device by its use, its person and the first eight digits of its id. */
const deviceText = (device: DeviceModel, speech: Speech): string => {
  const id = device.device.slice(-8)
  if (device.use === 'server') return speech.say('recServerDevice', { id })
  const who = device.name ?? speech.say('recNobody')
  return speech.say(DEVICE_WORDS[device.use], { who, id })
}

const DEVICE_WORDS = {
  phone: 'recPhoneOf',
  office: 'recOfficeOf',
  shared: 'recSharedPhoneOf',
} as const satisfies Partial<Record<DeviceModel['use'], RecordKey>>

/** Entries under a name that somebody tapped on a shared phone. */
const pickedLines = ({ job }: RecordModel, speech: Speech): string[] => {
  const entries = job.history
    .filter(({ by }) => by.known === 'picked')
    .flatMap(({ entry }) => speech.countOf(entry) ?? [])
  return entries.length === 0 ? [] : [speech.say('recPicked', { entries: runsText(entries) })]
}

/** What withdrawn devices sent afterwards, device by device, and which entries of this job came in by a decision. */
const setAsideLines = (model: RecordModel, speech: Speech): string[] => {
  const lines = model.devices.flatMap((device) => {
    const own = model.setAside.filter((each) => each.device === device.device)
    const count = (is: SetAsideModel['is']) => own.filter((each) => each.is === is).length
    if (own.length === 0) return []
    const parts = {
      n: own.length,
      admitted: count('admitted'),
      declined: count('declined'),
      refused: count('refused'),
      waiting: count('waiting'),
    }
    return [speech.say('recSetAside', { device: deviceText(device, speech), ...parts })]
  })
  const admitted = model.setAside.flatMap(({ entry, is, decided }) => {
    const n = speech.countOf(entry)
    if (is !== 'admitted' || !decided || n === undefined) return []
    return [speech.say('recAdmittedOne', { n, who: speech.who(decided.by), at: speech.time(decided.at) })]
  })
  return admitted.length === 0
    ? lines
    : [...lines, speech.say('recAdmitted', { entries: admitted.join(', ') })]
}

export const peopleBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const people = model.people.map(({ name, role }) =>
    speech.say('recPerson', { name, role: speech.say(ROLE_WORDS[role]) }),
  )
  const devices = model.devices.map((device) => {
    const text = deviceText(device, speech)
    return device.withdrawn === 'yes' ? speech.say('recWithdrawn', { device: text }) : text
  })
  const refused = model.refused.length
  return [
    { is: 'heading', text: speech.say('recPeople') },
    {
      is: 'list',
      items: [
        speech.say('recPeopleLine', { people: people.join(', '), devices: devices.join(', ') }),
        ...(refused > 0 ? [speech.say('recRefused', { n: refused })] : []),
        ...pickedLines(model, speech),
        ...setAsideLines(model, speech),
      ],
    },
  ]
}

/** The device's clock at signing against the time of receipt of the last entry under that signature. */
export const clockBlocks = (model: RecordModel, speech: Speech): Block[] => {
  const items = model.devices
    .filter((device) => device.use !== 'server')
    .flatMap((device) => device.heads.map((head) => ({ device, head })))
    .map(({ device, head }) => {
      const text = speech.say('recDeviceEpoch', { device: deviceText(device, speech), epoch: head.epoch })
      if (head.waited) return speech.say('recClockWaited', { device: text })
      if (head.aheadSeconds === undefined) {
        const own = model.job.history.filter((entry) => entry.device === device.device)
        const entries = oddReceipts(own, speech)
        const receipt = entries === undefined ? 'recClockReceiptNear' : 'recClockReceiptOdd'
        return `${speech.say('recClockUnknown', { device: text })} ${speech.say(receipt, { entries: entries ?? '' })}`
      }
      return head.aheadSeconds > 0
        ? speech.say('recClockAhead', { device: text, n: head.aheadSeconds })
        : speech.say('recClockBehind', { device: text, n: -head.aheadSeconds })
    })
  return items.length === 0
    ? []
    : [
        { is: 'heading', text: speech.say('recClocks') },
        { is: 'list', items },
      ]
}

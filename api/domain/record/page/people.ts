import type { Role } from '../../entry/role.ts'
import type { RecordKey } from '../../words/record-en.ts'
import type { DeviceModel, RecordModel } from '../model.ts'
import type { Block } from './blocks.ts'
import { oddReceipts } from './delays.ts'
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
  return speech.say(device.use === 'phone' ? 'recPhoneOf' : 'recOfficeOf', { who, id })
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

import type { LabelKey } from '../../api/domain/words/labels.ts'
import type { Where } from '../state/own.ts'
import { usePhone } from '../state/phone.ts'

const WORDS: Record<Where, LabelKey> = {
  'on-phone': 'stateOnPhone',
  sent: 'stateSent',
  'on-server': 'stateOnServer',
  refused: 'stateRefused',
  'waits-for-server': 'stateWaitsForServer',
  'set-aside': 'stateSetAside',
}
const SIGNS: Record<Where, string> = {
  'on-phone': '▢',
  sent: '◐',
  'on-server': '✓',
  refused: '✕',
  'waits-for-server': '…',
  'set-aside': '‖',
}

/** Where an entry is: a sign and its words, never a colour alone. */
export const StateMark = (props: { where: Where }) => {
  const { t } = usePhone()
  return (
    <span class="state" data-where={props.where}>
      <span aria-hidden="true">{SIGNS[props.where]}</span> {t(WORDS[props.where])}
    </span>
  )
}

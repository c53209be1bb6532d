import type { LabelKey } from '../../api/domain/words/labels.ts'
import { GROUNDS, type Ground, groundNow, setGround } from '../state/ground.ts'
import { usePhone } from '../state/phone.ts'
import { Choice } from './Choice.tsx'

const WORDS: Readonly<Record<Ground, LabelKey>> = {
  auto: 'groundAuto',
  day: 'groundDay',
  noon: 'groundNoon',
  night: 'groundNight',
  dawn: 'groundDawn',
}

/** Noon sun, or a cab before dawn: the phone can't tell which it is. */
export const GroundSwitch = () => {
  const { t } = usePhone()
  return (
    <Choice
      small
      legend={t('ground')}
      options={GROUNDS.map((value) => ({ value, label: t(WORDS[value]) }))}
      value={groundNow()}
      onPick={setGround}
    />
  )
}

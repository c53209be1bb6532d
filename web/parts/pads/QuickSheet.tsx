import { Match, Switch } from 'solid-js'
import type { Kind } from '../../../api/domain/entry/registry.ts'
import type { LabelKey } from '../../../api/domain/words/labels.ts'
import type { Draft } from '../../state/draft.ts'
import { type QuickAsk, useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { noneBefore } from '../../state/pour/water-ask.ts'
import { SlumpForm } from '../forms/SlumpForm.tsx'
import { Sheet } from '../Sheet.tsx'
import { LeftPad } from './LeftPad.tsx'
import { AirPad, TemperaturePad } from './ReadingPad.tsx'
import { WaterPad } from './WaterPad.tsx'

const TITLES: Readonly<Record<QuickAsk, LabelKey>> = {
  slump: 'slump',
  air: 'air',
  'concrete-temperature': 'concreteDegrees',
  water: 'waterHowMuch',
  'left-over': 'leftInDrum',
}

/** One number by knuckle, asked at the chute. */
export const QuickSheet = (props: { ask: QuickAsk; load: string }) => {
  const { t, language } = usePhone()
  const job = useJob()
  const close = () => job.setOver(undefined)
  const save =
    <K extends Kind>(kind: K) =>
    async (draft: Draft<K>) => {
      if (await job.log(kind, draft)) close()
    }
  /** Gallons after "none" of the same time: none had gone in when it was said. It is corrected, and stays to be seen. */
  const saveWater = async (draft: Draft<'water.added'>) => {
    const load = job.load(props.load)
    const corrects = load && draft.body.amount.is === 'given' ? noneBefore(load, draft.body.stage) : []
    const correction =
      corrects.length > 0 ? { corrects, why: { lang: language(), text: t('whyWaterAfterNone') } } : undefined
    if (await job.log('water.added', draft, correction)) close()
  }
  const title = () => {
    const number = job.load(props.load)?.ordinal ?? ''
    return `${t('loadNumber', { number })}: ${t(TITLES[props.ask])}`
  }
  return (
    <Sheet title={title()} onClose={close}>
      <Switch>
        <Match when={props.ask === 'slump'}>
          <SlumpForm load={props.load} onSave={save('slump.measured')} />
        </Match>
        <Match when={props.ask === 'air'}>
          <AirPad load={props.load} onSave={save('air.measured')} />
        </Match>
        <Match when={props.ask === 'concrete-temperature'}>
          <TemperaturePad load={props.load} onSave={save('temperature.measured')} />
        </Match>
        <Match when={props.ask === 'water'}>
          <WaterPad load={props.load} onSave={saveWater} />
        </Match>
        <Match when={props.ask === 'left-over'}>
          <LeftPad load={props.load} onSave={save('concrete.left')} />
        </Match>
      </Switch>
    </Sheet>
  )
}

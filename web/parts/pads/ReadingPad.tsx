import { createSignal, Show } from 'solid-js'
import type { BodyOf, Kind } from '../../../api/domain/entry/registry.ts'
import type { Unit } from '../../../api/domain/units.ts'
import { type Draft, readWhen, type When } from '../../state/draft.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { showUnit } from '../../state/show.ts'
import { FormFrame } from '../forms/FormFrame.tsx'
import { createMore, MoreFields } from '../forms/shape/more.tsx'
import { WhenField } from '../WhenField.tsx'
import { keysFrom, PadKeys } from './PadKeys.tsx'
import { sumText, tenthsText } from './pad-text.ts'

type Value =
  | { readonly is: 'given'; readonly text: string; readonly unit: Unit }
  | { readonly is: 'not-taken' }

/** A reading of two touches, and one more that logs it; or that it was not taken. */
const ReadingPad = <K extends Kind>(props: {
  kind: K
  byPad: readonly string[]
  unit: Unit
  first: { readonly legend: string; readonly from: number; readonly to: number; readonly step: number }
  second: string
  text: (first: string | undefined, second: string | undefined) => string | undefined
  body: (value: Value, rest: Readonly<Record<string, unknown>>) => BodyOf<K>
  onSave: (draft: Draft<K>) => Promise<unknown>
}) => {
  const { t, world } = usePhone()
  const job = useJob()
  const [first, setFirst] = createSignal<string>()
  const [second, setSecond] = createSignal<string>()
  const [when, setWhen] = createSignal<When>({ is: 'now' })
  const [tried, setTried] = createSignal(false)
  const more = createMore(props.kind, props.byPad, undefined)
  const text = () => props.text(first(), second())
  const draft = (value: Value | undefined): Draft<K> | undefined => {
    const rest = more.members()
    const occurredAt = readWhen(when(), world.now(), job.zone())
    return value && rest && occurredAt
      ? { body: props.body(value, rest), occurredAt, source: 'tap' }
      : undefined
  }
  const given = (): Value | undefined => {
    const now = text()
    return now === undefined ? undefined : { is: 'given', text: now, unit: props.unit }
  }
  return (
    <FormFrame
      form={{ onSave: props.onSave }}
      draft={() => draft(given())}
      endings={[
        { label: t('logIt'), draft: () => draft(given()) },
        { label: t('logNotTaken'), draft: () => draft({ is: 'not-taken' }), second: true },
      ]}
      onOpen={() => setTried(true)}
    >
      <output class="figure big">
        {text() ?? '–'} <small>{showUnit(t, props.unit)}</small>
      </output>
      <Show when={tried() && text() === undefined}>
        <p class="field-wrong">⚠ {t('stillOpen')}</p>
      </Show>
      <PadKeys
        legend={props.first.legend}
        keys={keysFrom(props.first.from, props.first.to, props.first.step)}
        picked={first()}
        onPick={setFirst}
        wide={5}
      />
      <PadKeys legend={props.second} keys={keysFrom(0, 9)} picked={second()} onPick={setSecond} wide={5} />
      <MoreFields more={more} tried={tried()} />
      <WhenField when={when()} onChange={setWhen} tried={tried()} />
    </FormFrame>
  )
}

/** Air content by tenths. */
export const AirPad = (props: {
  load: string
  onSave: (draft: Draft<'air.measured'>) => Promise<unknown>
}) => {
  const { t } = usePhone()
  return (
    <ReadingPad
      kind="air.measured"
      byPad={['air']}
      unit="pct"
      first={{ legend: t('wholePercent'), from: 0, to: 14, step: 1 }}
      second={t('tenths')}
      text={tenthsText}
      body={(air, rest) => ({ ...rest, load: props.load, air }) as BodyOf<'air.measured'>}
      onSave={props.onSave}
    />
  )
}

/** Degrees of the concrete of this load. */
export const TemperaturePad = (props: {
  load: string
  onSave: (draft: Draft<'temperature.measured'>) => Promise<unknown>
}) => {
  const { t } = usePhone()
  return (
    <ReadingPad
      kind="temperature.measured"
      byPad={['of', 'temperature', 'part']}
      unit="degF"
      first={{ legend: t('tens'), from: 30, to: 120, step: 10 }}
      second={t('ones')}
      text={(tens, ones) => (tens === undefined || ones === undefined ? undefined : sumText(tens, ones))}
      body={(temperature, rest) =>
        ({ ...rest, of: 'concrete', load: props.load, temperature }) as BodyOf<'temperature.measured'>
      }
      onSave={props.onSave}
    />
  )
}

import { createSignal, For, Show } from 'solid-js'
import { FINISH_STEPS } from '../../api/domain/entry/kinds/finish-done.ts'
import type { BodyOf, Kind } from '../../api/domain/entry/registry.ts'
import type { Code } from '../../api/domain/words/entry-words.ts'
import { useJob } from '../state/job-here.ts'
import type { Words } from '../state/language.ts'
import { usePhone } from '../state/phone.ts'
import { kindWord } from '../state/show.ts'

type Step = { readonly key: string; readonly label: string; readonly kind: Kind; readonly body: object }

const AFTER = ['forms-stripped', 'backfilled', 'sealed'] as const

const code = (t: Words, of: Code): string => {
  const word = t.entry().codes[of]
  return word.slice(0, 1).toLocaleUpperCase() + word.slice(1)
}

/** What one touch can say of the finish, in the order of the work. Amounts and products go in by the longer forms. */
const stepsOf = (t: Words): readonly Step[] => [
  ...FINISH_STEPS.map(
    (step): Step => ({ key: step, label: code(t, step), kind: 'finish.done', body: { step } }),
  ),
  { key: 'cure', label: kindWord(t, 'cure.applied'), kind: 'cure.applied', body: {} },
  { key: 'saw-start', label: t('sawBegan'), kind: 'joint.sawn', body: { phase: 'start' } },
  { key: 'saw-end', label: t('sawEnded'), kind: 'joint.sawn', body: { phase: 'end' } },
  ...AFTER.map((what): Step => ({ key: what, label: code(t, what), kind: 'slab.served', body: { what } })),
  { key: 'rain-start', label: t('rainBegan'), kind: 'rain.fell', body: { phase: 'start' } },
  { key: 'rain-end', label: t('rainEnded'), kind: 'rain.fell', body: { phase: 'end' } },
]

/** The parts are touched once; after that each step is one touch, logged as now. */
export const FinishPad = () => {
  const { t, jobs } = usePhone()
  const job = useJob()
  const [parts, setParts] = createSignal<readonly string[]>([])
  const [busy, setBusy] = createSignal<string>()
  const [done, setDone] = createSignal<string>()
  const steps = () => stepsOf(t).filter(({ kind }) => jobs.mayMake(kind))
  const said = () => (parts().length > 0 ? { parts: [...parts()] } : {})
  const toggle = (id: string) =>
    setParts(parts().includes(id) ? parts().filter((one) => one !== id) : [...parts(), id])
  const tap = async ({ key, kind, label, body }: Step) => {
    if (busy()) return
    setBusy(key)
    setDone(undefined)
    // Rain falls on the whole slab.
    const whole = kind === 'rain.fell' ? body : { ...body, ...said() }
    const kept = await job.tap(kind, whole as BodyOf<Kind>).finally(() => setBusy(undefined))
    if (kept) setDone(label)
  }
  const named = () =>
    parts()
      .map((id) => job.parts().find((part) => part.id === id)?.name)
      .join(', ')
  return (
    <fieldset class="block" aria-label={t('touchWhenDone')}>
      <Show when={job.parts().length > 0}>
        <p>{t('whichPart')}</p>
        <div class="wrap">
          <For each={job.parts().map((part) => part.id)}>
            {(id) => (
              <button
                type="button"
                class="toggle"
                aria-pressed={parts().includes(id)}
                onClick={() => toggle(id)}
              >
                <span translate="no">{job.parts().find((part) => part.id === id)?.name}</span>
              </button>
            )}
          </For>
        </div>
      </Show>
      <h3 class="block-head">
        {t('touchWhenDone')}: {named() || t('wholeSlab')}
      </h3>
      <div class="wrap two">
        <For each={steps().map((step) => step.key)}>
          {(key) => (
            <Show when={steps().find((step) => step.key === key)}>
              {(step) => (
                <button
                  type="button"
                  class="step"
                  data-step={key}
                  disabled={busy() !== undefined}
                  onClick={() => void tap(step())}
                >
                  {busy() === key ? t('keeping') : step().label}
                </button>
              )}
            </Show>
          )}
        </For>
        <Show when={jobs.mayMake('cover.placed')}>
          <button
            type="button"
            onClick={() => job.setOver({ is: 'new', kind: 'cover.placed', given: said() })}
          >
            + {kindWord(t, 'cover.placed')}
          </button>
        </Show>
      </div>
      <Show when={done()}>
        {(label) => (
          <p class="sum" role="status">
            ✓ {t('savedThis', { value: label() })}
          </p>
        )}
      </Show>
    </fieldset>
  )
}

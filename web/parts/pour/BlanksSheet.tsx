import { createSignal, For, Show } from 'solid-js'
import type { BodyOf, Kind } from '../../../api/domain/entry/registry.ts'
import { GAPS, MISSING } from '../../state/finding-text.ts'
import { useJob } from '../../state/job-here.ts'
import { usePhone } from '../../state/phone.ts'
import { type Blank, blanksOf, type NotTaken } from '../../state/pour/blanks.ts'
import { Sheet } from '../Sheet.tsx'

const NOT_TAKEN = { is: 'not-taken' } as const
const notTaken = (what: NotTaken, load: string): { kind: Kind; body: BodyOf<Kind> } => {
  switch (what) {
    case 'slump.measured':
      return { kind: what, body: { load, slump: NOT_TAKEN } }
    case 'air.measured':
      return { kind: what, body: { load, air: NOT_TAKEN } }
    case 'concrete.temperature':
      return { kind: 'temperature.measured', body: { of: 'concrete', load, temperature: NOT_TAKEN } }
  }
}

/** The quiet hour: what the log lacks and somebody may still know, the quickest first. */
export const BlanksSheet = () => {
  const { t } = usePhone()
  const job = useJob()
  const [busy, setBusy] = createSignal(false)
  const blanks = () => blanksOf(job.view(), job.figures())
  const words = (blank: Blank): string => {
    const what = Object.hasOwn(MISSING, blank.of)
      ? t(MISSING[blank.of as keyof typeof MISSING])
      : t(GAPS[blank.of as keyof typeof GAPS])
    const where = blank.load
      ? t('loadNumber', { number: blank.load.ordinal })
      : blank.part && job.names(t).part(blank.part)
    return where ? `${where}: ${what}` : what
  }
  const say = async (what: NotTaken, load: string) => {
    if (busy()) return
    setBusy(true)
    const { kind, body } = notTaken(what, load)
    await job.tap(kind, body).finally(() => setBusy(false))
  }
  return (
    <Sheet title={t('blanks')} onClose={() => job.setOver(undefined)}>
      <p>{t('blanksHelp')}</p>
      <ul class="plain-list blanks">
        <For each={blanks().map((blank) => blank.key)} fallback={<li>{t('noBlanks')}</li>}>
          {(key) => (
            <Show when={blanks().find((blank) => blank.key === key)}>
              {(blank) => (
                <li>
                  <button
                    type="button"
                    class="blank"
                    data-blank={blank().of}
                    onClick={() => job.setOver(blank().over)}
                  >
                    <strong>{words(blank())}</strong>
                    <span>{t('aboutSeconds', { seconds: blank().seconds })}</span>
                  </button>
                  <Show when={blank().notTaken}>
                    {(what) => (
                      <button
                        type="button"
                        disabled={busy()}
                        aria-label={`${words(blank())}: ${t('logNotTaken')}`}
                        onClick={() => void say(what(), blank().load!.id)}
                      >
                        {t('logNotTaken')}
                      </button>
                    )}
                  </Show>
                </li>
              )}
            </Show>
          )}
        </For>
      </ul>
    </Sheet>
  )
}

import { For, onMount } from 'solid-js'
import { usePhone } from '../../state/phone.ts'
import type { SlumpPick } from '../../state/slump-text.ts'

/** As far as a cone is high. Source: common practice, no source. */
const INCHES = Array.from({ length: 12 }, (_, i) => i)
const QUARTERS = ['0', '1/4', '1/2', '3/4'] as const
/** The row that stands on top when it opens: most slumps lie below it, and none is lit. Source: our choice. */
const TOP = 2

/** A ruler lying on its side: a row an inch, a column a quarter. One touch is the whole reading. */
export const SlumpRuler = (props: { pick: SlumpPick; onPick: (pick: SlumpPick) => void }) => {
  const { t } = usePhone()
  let ruler!: HTMLFieldSetElement
  onMount(() => {
    const row = ruler.querySelector<HTMLElement>(`[data-inch="${props.pick.whole ?? TOP}"]`)
    // The sheet scrolls, and is laid out only after this.
    requestAnimationFrame(() => row?.scrollIntoView({ block: 'start' }))
  })
  const isPicked = (whole: number, quarter: (typeof QUARTERS)[number]): boolean =>
    props.pick.whole === whole && (props.pick.quarter ?? '0') === quarter
  return (
    <fieldset class="pad ruler" ref={ruler} style={{ '--wide': 4 }}>
      <legend>{t('slumpRuler')}</legend>
      <For each={INCHES}>
        {(whole) => (
          <For each={QUARTERS}>
            {(quarter) => (
              <button
                type="button"
                aria-pressed={isPicked(whole, quarter)}
                data-inch={quarter === '0' ? whole : undefined}
                onClick={() => props.onPick({ whole, quarter })}
              >
                {whole === 0 && quarter !== '0' ? '' : `${whole} `}
                {quarter === '0' ? '' : <small>{quarter}</small>}
              </button>
            )}
          </For>
        )}
      </For>
    </fieldset>
  )
}

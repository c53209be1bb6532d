import { Show } from 'solid-js'
import { createLater } from '../state/later.ts'

/** A QR code, drawn in the page. The drawer is loaded only when one is asked for. */
export const Qr = (props: { text: string; label: string }) => {
  const svg = createLater(
    () => props.text,
    async (text) => {
      const { renderSVG } = await import('uqr')
      return `data:image/svg+xml;charset=utf-8,${encodeURIComponent(renderSVG(text, { border: 4, ecc: 'M' }))}`
    },
  )
  return (
    <Show when={svg.value()}>
      {(src) => <img class="qr" src={src()} alt={props.label} data-text={props.text} />}
    </Show>
  )
}

import { For } from 'solid-js'
import { readEntry } from '../../api/domain/entry/read.ts'
import { toUtf8 } from '../../api/domain/log/encoding.ts'
import { usePhone } from '../state/phone.ts'
import { kindWord, showTime, showValue } from '../state/show.ts'
import { sentenceOf } from '../state/sync-words.ts'

/** Entries and photos that the server would not take: kept on this phone, each with the sentence that says why. */
export const Refused = () => {
  const { t, own, world } = usePhone()
  const what = (text: string): string => {
    const read = readEntry(toUtf8(text), world.sha256)
    if (!read.ok || 'newer' in read.value) return ''
    const { entry } = read.value
    return `${kindWord(t, entry.kind)} ${showValue(t, entry)} · ${showTime(entry.occurredAt)}`
  }
  return (
    <>
      <For each={own.refused()}>
        {(entry) => (
          <p class="refused">
            ✕ <strong>{what(entry.text)}</strong> {t(sentenceOf(entry.state.code), { at: entry.state.at })}
          </p>
        )}
      </For>
      <For each={own.photosRefused()}>
        {(photo) => (
          <p class="refused">
            ✕ <strong>{kindWord(t, 'photo.taken')}</strong> {t(sentenceOf(photo.refused ?? ''))}
          </p>
        )}
      </For>
    </>
  )
}

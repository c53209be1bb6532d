import { For } from 'solid-js'
import { LANGUAGES, type Language } from '../../api/domain/words/languages.ts'
import { usePhone } from '../state/phone.ts'

/** Each language in its own name, so that whoever needs it can find it. */
const NAMES: Record<Language, string> = { en: 'English', es: 'Español' }

export const LanguageSwitch = () => {
  const { language, setLanguage } = usePhone()
  return (
    <div class="languages">
      <For each={LANGUAGES}>
        {(each) => (
          <button
            type="button"
            class="toggle"
            lang={each}
            translate="no"
            aria-pressed={language() === each}
            onClick={() => setLanguage(each)}
          >
            {NAMES[each]}
          </button>
        )}
      </For>
    </div>
  )
}

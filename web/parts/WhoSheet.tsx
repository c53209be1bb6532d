import { For } from 'solid-js'
import { usePhone } from '../state/phone.ts'
import { Sheet } from './Sheet.tsx'

/** On a shared phone: everybody of the company, one tap each. */
export const WhoSheet = () => {
  const { t, jobs, who } = usePhone()
  const people = () => [...jobs.members().people.values()].sort((a, b) => a.name.localeCompare(b.name))
  return (
    <Sheet title={t('whoLogs')} onClose={who.leave}>
      <div class="who-names">
        <For each={people()}>
          {({ person, name }) => (
            <button type="button" aria-pressed={who.person() === person} onClick={() => who.pick(person)}>
              {name}
            </button>
          )}
        </For>
      </div>
      <p>{t('whoHelp')}</p>
    </Sheet>
  )
}

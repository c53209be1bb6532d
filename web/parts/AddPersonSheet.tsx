import { createSignal, Show } from 'solid-js'
import { ROLES, type Role } from '../../api/domain/entry/role.ts'
import { usePhone } from '../state/phone.ts'
import { Choice } from './Choice.tsx'
import { SaveButton } from './SaveButton.tsx'
import { Sheet } from './Sheet.tsx'
import { TextField } from './TextField.tsx'

/** Somebody who may log or read from now on, under the name that the crew calls them by. */
export const AddPersonSheet = (props: { onClose: () => void }) => {
  const { t, jobs, identity, log, newId, localNow } = usePhone()
  const [name, setName] = createSignal('')
  const [role, setRole] = createSignal<Role>()
  const [tried, setTried] = createSignal(false)
  const myRole = () => jobs.members().people.get(identity()?.person ?? '')?.role
  /** Only an owner makes an owner. */
  const roles = () => ROLES.filter((r) => r !== 'owner' || myRole() === 'owner')
  const add = async () => {
    const is = identity()
    const as = role()
    const called = name().trim()
    if (!is || !as || called === '') {
      setTried(true)
      return
    }
    const body = { person: newId(), name: called, role: as }
    const occurredAt = localNow(is.zone)
    if (await log({ job: is.company, kind: 'person.added', body, occurredAt, source: 'tap' })) props.onClose()
  }
  return (
    <Sheet title={t('addPerson')} onClose={props.onClose}>
      <TextField
        label={t('personName')}
        value={name()}
        onInput={setName}
        wrong={tried() && name().trim() === '' ? t('stillOpen') : undefined}
      />
      <Choice
        legend={t('role')}
        options={roles().map((value) => ({ value, label: t(value) }))}
        value={role()}
        onPick={setRole}
      />
      <Show when={tried() && !role()}>
        <p class="field-wrong">⚠ {t('stillOpen')}</p>
      </Show>
      <div class="form-end">
        <SaveButton onSave={add} />
      </div>
    </Sheet>
  )
}

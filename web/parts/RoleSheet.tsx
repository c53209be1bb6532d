import { createSignal, Show } from 'solid-js'
import { ROLES, type Role } from '../../api/domain/entry/role.ts'
import { usePhone } from '../state/phone.ts'
import { Choice } from './Choice.tsx'
import { SaveButton } from './SaveButton.tsx'
import { Sheet } from './Sheet.tsx'

/** Another role for somebody, by an entry: it holds from the next thing that they do. */
export const RoleSheet = (props: { person: string; onClose: () => void }) => {
  const { t, jobs, identity, log, localNow } = usePhone()
  const is = () => jobs.members().people.get(props.person)
  const [role, setRole] = createSignal<Role | undefined>(is()?.role)
  /** Without an owner nobody could change roles, or decide on what was set aside, ever again. */
  const isLastOwner = () =>
    is()?.role === 'owner' &&
    [...jobs.members().people.values()].filter((p) => p.role === 'owner').length === 1
  const change = async () => {
    const me = identity()
    const as = role()
    if (!me || !as) return
    const body = { person: props.person, role: as }
    const occurredAt = localNow(me.zone)
    if (
      as === is()?.role ||
      (await log({ job: me.company, kind: 'role.changed', body, occurredAt, source: 'tap' }))
    )
      props.onClose()
  }
  return (
    <Sheet title={t('roleOf', { name: is()?.name ?? '' })} onClose={props.onClose}>
      <Show when={!isLastOwner()} fallback={<p>⚠ {t('roleLastOwner')}</p>}>
        <Choice
          legend={t('role')}
          options={ROLES.map((value) => ({ value, label: t(value) }))}
          value={role()}
          onPick={setRole}
        />
        <div class="form-end">
          <SaveButton onSave={change} />
        </div>
      </Show>
    </Sheet>
  )
}
